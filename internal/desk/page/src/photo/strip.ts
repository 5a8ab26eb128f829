// A picture as the sheet takes it: its pixels as they are stored and which way up they are, and nothing else that its file holds.

/** Takes everything out of a file that is no pixels; null where that is not done for its kind, or where it would turn the picture. */
export function stripped(file: ArrayBuffer, orientation: number): Uint8Array | null {
  const b = new DataView(file);
  if (b.byteLength > 3 && b.getUint16(0) === 0xffd8) return jpeg(b, orientation);
  if (b.byteLength > 8 && b.getUint32(0) === 0x89504e47 && orientation === 1) return png(b);
  return null;
}

type Part = [from: number, to: number];

function joined(b: DataView, parts: (Part | Uint8Array)[]): Uint8Array {
  const all = parts.map(p => (p instanceof Uint8Array ? p : new Uint8Array(b.buffer, p[0], p[1] - p[0]))),
    out = new Uint8Array(all.reduce((n, p) => n + p.length, 0));
  let at = 0;
  for (const p of all) {
    out.set(p, at);
    at += p.length;
  }
  return out;
}

// ITU T.81, B.1.1.3: APP0 to APP15 and COM hold what is no picture. Of these only APP14 says how its colours are stored (ITU T.872, 6.5.3;
// MEM), and stays.
function jpeg(b: DataView, orientation: number): Uint8Array | null {
  const parts: (Part | Uint8Array)[] = [[0, 2]];
  if (orientation !== 1) parts.push(exifOf(orientation));
  for (let at = 2; at + 2 <= b.byteLength;) {
    if (b.getUint8(at) !== 0xff) return null;
    const marker = b.getUint8(at + 1);
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (marker === 0xd9) return joined(b, [...parts, [at, at + 2]]); // what follows the end may be another picture, or a place and a date
    const to = marker === 0xda ? scanEnd(b, at + 2 + b.getUint16(at + 2)) : at + 2 + b.getUint16(at + 2);
    if (!((marker >= 0xe0 && marker <= 0xef && marker !== 0xee) || marker === 0xfe)) parts.push([at, Math.min(to, b.byteLength)]);
    at = to;
  }
  return joined(b, parts); // a file that breaks off within its scan
}

/** Where the coded data of a scan end: at the next marker that is no restart (ITU T.81, B.1.1.2 and B.2.1; MEM). */
function scanEnd(b: DataView, from: number): number {
  const all = new Uint8Array(b.buffer);
  for (let at = from; ; at++) {
    at = all.indexOf(0xff, at);
    if (at < 0 || at + 1 >= all.length) return all.length;
    const next = all[at + 1];
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
}

/** An APP1 that says only which way up a picture is: TIFF 6.0, section 2 (MEM). */
function exifOf(orientation: number): Uint8Array {
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0];
  return new Uint8Array([0xff, 0xe1, 0, 2 + 6 + tiff.length, 0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff]);
}

// PNG, third edition, 5.6: the chunks without which there is no picture, and transparency.
function png(b: DataView): Uint8Array | null {
  const parts: Part[] = [[0, 8]];
  for (let at = 8; at + 12 <= b.byteLength;) {
    const to = at + 12 + b.getUint32(at),
      name = String.fromCharCode(...[4, 5, 6, 7].map(i => b.getUint8(at + i)));
    if (to > b.byteLength) return null;
    if (['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS'].includes(name)) parts.push([at, to]);
    at = to;
  }
  return joined(b, parts);
}
