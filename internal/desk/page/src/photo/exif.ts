// The two things of EXIF that a reading needs: which way up a picture is, and its focal length. Nothing else of it is read or kept; the
// libraries for browsers bring the names of a thousand other tags into the page.
export interface Exif {
  orientation: number; // EXIF 2.32, 4.6.4 A: 1 is upright as stored, 2 to 8 are mirrored and turned
  focal: number; // for 35 mm film, in millimetres; 0 where it is not known
}

const ORIENTATION = 0x0112,
  EXIF_IFD = 0x8769,
  FOCAL = 0x920a,
  PIXEL_WIDTH = 0xa002,
  PLANE_X = 0xa20e,
  PLANE_UNIT = 0xa210,
  FOCAL_35 = 0xa405;

const FILM = 43.267, // diagonal, in millimetres
  LEAST = 10,
  MOST = 1200; // a focal length that is believed, as the program's own reader has it

/** Reads a TIFF (TIFF 6.0, section 2; MEM) whose tags may break off anywhere: what stands before the break counts. */
export function readExif(t: DataView, stored: { width: number; height: number }): Exif {
  const found = new Map<number, number>();
  try {
    const little = t.getUint16(0) === 0x4949;
    directory(t, t.getUint32(4, little), little, [ORIENTATION, EXIF_IFD], found);
    const exif = found.get(EXIF_IFD);
    if (exif) directory(t, exif, little, [FOCAL, PIXEL_WIDTH, PLANE_X, PLANE_UNIT, FOCAL_35], found);
  } catch {
    /* broken EXIF counts as none */
  }
  const o = found.get(ORIENTATION) || 1;
  return { orientation: o >= 1 && o <= 8 ? o : 1, focal: focalOf(found, stored) };
}

/** Reads the wanted tags of one directory. */
function directory(t: DataView, at: number, little: boolean, wanted: number[], into: Map<number, number>): void {
  const n = t.getUint16(at, little);
  for (let i = 0; i < n; i++) {
    const entry = at + 2 + 12 * i,
      tag = t.getUint16(entry, little);
    if (!wanted.includes(tag)) continue;
    const v = value(t, entry, little);
    if (Number.isFinite(v)) into.set(tag, v);
  }
}

function value(t: DataView, entry: number, little: boolean): number {
  switch (t.getUint16(entry + 2, little)) {
    case 3: // SHORT
      return t.getUint16(entry + 8, little);
    case 4: // LONG
      return t.getUint32(entry + 8, little);
    case 5: {
      // RATIONAL
      const at = t.getUint32(entry + 8, little);
      return t.getUint32(at, little) / t.getUint32(at + 4, little);
    }
  }
  return NaN;
}

/** As the file says it (EXIF 2.32, 4.6.5 G; MEM), or from the diagonal of the sensor where the file has all of its pixels. */
function focalOf(found: Map<number, number>, stored: { width: number; height: number }): number {
  let focal = found.get(FOCAL_35) || 0;
  const unit = { 2: 25.4, 3: 10 }[found.get(PLANE_UNIT) || 0], // an inch, a centimetre
    per = found.get(PLANE_X);
  if (!focal && unit && per && found.get(PIXEL_WIDTH) === stored.width) {
    const sensor = (Math.hypot(stored.width, stored.height) / per) * unit;
    focal = Math.round((((found.get(FOCAL) || 0) * FILM) / sensor) * 10) / 10;
  }
  return focal >= LEAST && focal <= MOST ? focal : 0;
}
