// The marks file or picture that the program was started with.
import { fetched } from '../calls';
import { openMarks } from './act';
import { decode, keepPicture } from './pictures';
import { photo, setPhoto } from './store';

export async function openGiven(marks: Record<string, unknown>, name: string): Promise<void> {
  const shot = openMarks(marks, name);
  try {
    keepPicture(shot.id, await decode(await fetched('/picture'), shot.picture));
    delete photo.without[shot.id];
    setPhoto({});
  } catch {
    /* the page says that the picture is wanted */
  }
}
