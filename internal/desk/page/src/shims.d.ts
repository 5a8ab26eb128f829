// The library's types name an event that TypeScript 4.8's list of the browser lacks.
interface PictureInPictureEvent extends Event {}
