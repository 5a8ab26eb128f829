// The place where photographs and sketches are marked and read.
import { Files } from './photo/files';
import { openMarks, openPicture, undoPhoto } from './photo/act';
import { refreshPhoto } from './photo/ask';
import { cancelHand } from './photo/hand';
import { Main } from './photo/main';
import { photo, shotNow } from './photo/store';
import type { Place } from './places';
import { photoWords as words } from './words-photo';

const PICTURE = /\.(jpe?g|png|webp|heic|heif|avif|gif|tiff?)$/i;

export const photos: Place = {
  name: 'photo',
  title: words.title,
  file: () => shotNow()?.name || '',
  steps: () => ({ past: photo.work.past.length, future: photo.work.future.length }),
  undo: () => undoPhoto(true),
  redo: () => undoPhoto(false),
  refusal: () => '',
  Files,
  Main,
  refresh: refreshPhoto,
  escape: cancelHand,
  opened: ({ marks }, name) => {
    if (!marks) return false;
    openMarks(marks as Record<string, unknown>, name);
    return true;
  },
  takes: file => file.type.startsWith('image/') || PICTURE.test(file.name),
  take: file => openPicture(file, file.name),
};
