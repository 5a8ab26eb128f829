// What the header of a picture says, read before anything is decoded: a small file may claim to be a huge picture. The bounds are those of
// the program's own reader.
import { photoWords as words } from '../words-photo';
import { type Exif, readExif } from './exif';

export const MOST_BYTES = 40 << 20,
  LEAST_SIDE = 40, // pixels: a wheel has as many
  MOST_SIDE = 20_000,
  MOST_PIXELS = 100e6,
  LOOKED_AT = 8 << 20; // bytes in which a header ends

export interface Header extends Exif {
  width: number; // of the upright picture
  height: number;
}

interface Stored {
  width: number;
  height: number;
  exif: DataView | null; // a TIFF
}

/** Reads the start of a file. The error is a sentence for people. */
export function readHeader(start: ArrayBuffer, name: string): Header {
  const b = new DataView(start),
    text = (at: number, n: number) =>
      at + n <= b.byteLength ? String.fromCharCode(...Array.from({ length: n }, (_, i) => b.getUint8(at + i))) : '';
  let s: Stored | null = null;
  try {
    if (text(1, 3) === 'PNG') s = png(b, text);
    else if (b.byteLength > 3 && b.getUint16(0) === 0xffd8) s = jpeg(b, text);
    else if (text(0, 4) === 'RIFF' && text(8, 4) === 'WEBP') s = webp(b, text);
    else if (text(4, 4) === 'ftyp') throw new Error(words.phonePicture(name, text(8, 4).startsWith('avi') ? 'AVIF' : 'HEIC'));
    else throw new Error(words.noPicture(name));
  } catch (e) {
    if (!(e instanceof RangeError)) throw e; // the file ends within its header
  }
  if (!s || !s.width || !s.height) throw new Error(words.brokenPicture(name));
  if (Math.min(s.width, s.height) < LEAST_SIDE) throw new Error(words.smallPicture(name, s.width, s.height));
  if (Math.max(s.width, s.height) > MOST_SIDE || s.width * s.height > MOST_PIXELS)
    throw new Error(words.hugePicture(name, s.width, s.height));
  const exif = s.exif ? readExif(s.exif, s) : { orientation: 1, focal: 0 };
  return exif.orientation < 5 ? { ...s, ...exif } : { ...exif, width: s.height, height: s.width }; // the other ones lie on their sides
}

type Text = (at: number, n: number) => string;

// PNG, third edition, 5.3 and 11.2.1: chunks of length, type, data and CRC; the first is IHDR. EXIF stands in eXIf (MEM).
function png(b: DataView, text: Text): Stored {
  const out: Stored = { width: b.getUint32(16), height: b.getUint32(20), exif: null };
  for (let at = 8; at + 8 <= b.byteLength; at += 12 + b.getUint32(at)) {
    if (text(at + 4, 4) === 'eXIf') out.exif = new DataView(b.buffer, at + 8, Math.min(b.getUint32(at), b.byteLength - at - 8));
    if (text(at + 4, 4) === 'IDAT') break;
  }
  return out;
}

// ITU T.81, B.1.1.2 and B.2.2: segments of marker and length; a frame header holds the size. EXIF stands in APP1 (EXIF 2.32, 4.7.2; MEM).
function jpeg(b: DataView, text: Text): Stored | null {
  let exif: DataView | null = null;
  for (let at = 2; at + 4 <= b.byteLength;) {
    if (b.getUint8(at) !== 0xff) return null;
    const marker = b.getUint8(at + 1);
    if (marker === 0xff || marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8)) {
      at += marker === 0xff ? 1 : 2; // fill bytes and markers without a length
      continue;
    }
    const long = b.getUint16(at + 2);
    if (marker === 0xe1 && !exif && text(at + 4, 6) === 'Exif\0\0')
      exif = new DataView(b.buffer, at + 10, Math.max(0, Math.min(long - 8, b.byteLength - at - 10)));
    const frame = marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    if (frame) return { width: b.getUint16(at + 7), height: b.getUint16(at + 5), exif };
    at += 2 + long;
  }
  return null;
}

// RFC 9649, 2.5 to 2.7: chunks of a name and a length, padded to even lengths (MEM).
function webp(b: DataView, text: Text): Stored {
  const out: Stored = { width: 0, height: 0, exif: null };
  const u24 = (at: number) => b.getUint16(at, true) | (b.getUint8(at + 2) << 16);
  for (let at = 12; at + 8 <= b.byteLength;) {
    const chunk = text(at, 4),
      long = b.getUint32(at + 4, true),
      data = at + 8;
    if (chunk === 'VP8X') Object.assign(out, { width: u24(data + 4) + 1, height: u24(data + 7) + 1 });
    else if (chunk === 'VP8 ' && !out.width)
      Object.assign(out, { width: b.getUint16(data + 6, true) & 0x3fff, height: b.getUint16(data + 8, true) & 0x3fff });
    else if (chunk === 'VP8L' && !out.width) {
      const bits = b.getUint32(data + 1, true);
      Object.assign(out, { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 });
    } else if (chunk === 'EXIF') {
      const from = text(data, 6) === 'Exif\0\0' ? 6 : 0;
      out.exif = new DataView(b.buffer, data + from, Math.max(0, Math.min(long - from, b.byteLength - data - from)));
    }
    at = data + long + (long % 2);
  }
  return out;
}
