/** Colour space of a profile, as far as a photo may carry it on; `other` has to be converted. */
export type ProfileSpace = "srgb" | "display-p3" | "other";

/** XYZ of the three primaries in D50, as profiles have them (IEC 61966-2-1; SMPTE EG 432-1), red, green, blue. */
const primaries: Readonly<Record<"srgb" | "display-p3", readonly number[]>> = {
  srgb: [0.43607, 0.22249, 0.01392, 0.38515, 0.71687, 0.09708, 0.14307, 0.06061, 0.7141],
  "display-p3": [0.51512, 0.2412, -0.00105, 0.29198, 0.69225, 0.04189, 0.1571, 0.06657, 0.78407],
};
/** largest difference of a primary; profiles round and adapt the white somewhat differently */
const primaryOff = 0.003;
/** codes at which the curve is compared with the curve of sRGB, and what it may be off */
const curveAt = [0.1, 0.25, 0.5, 0.75] as const;
const curveOff = 0.01;

const srgbCurve = (code: number): number => (code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4);

/**
 * Recognises sRGB and Display P3 by the numbers of a matrix profile, never by its name: primaries in D50 and curve.
 * Errors: none; what cannot be read is `other`. Source: ICC.1:2022, 8.3.
 */
export function profileSpace(profile: Uint8Array): ProfileSpace {
  const view = new DataView(profile.buffer, profile.byteOffset, profile.byteLength);
  try {
    const found = ["rXYZ", "gXYZ", "bXYZ"].flatMap((name) => {
      const at = tagAt(view, name);
      return [8, 12, 16].map((offset) => view.getInt32(at + offset) / 65536);
    });
    const curves = ["rTRC", "gTRC", "bTRC"].map((name) => curveOf(view, tagAt(view, name)));
    const likeSrgb = curves.every((curve) =>
      curveAt.every((code) => Math.abs(curve(code) - srgbCurve(code)) < curveOff),
    );
    if (!likeSrgb) return "other";
    for (const space of ["srgb", "display-p3"] as const) {
      if (found.every((value, k) => Math.abs(value - primaries[space][k]!) < primaryOff)) return space;
    }
    return "other";
  } catch (error) {
    // A read past the end of the profile, or a tag that is not there.
    if (error instanceof RangeError) return "other";
    throw error;
  }
}

const nameAt = (view: DataView, at: number): string =>
  String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));

function tagAt(view: DataView, name: string): number {
  const count = Math.min(100, view.getUint32(128));
  for (let k = 0; k < count; k += 1) if (nameAt(view, 132 + 12 * k) === name) return view.getUint32(136 + 12 * k);
  throw new RangeError(`no tag ${name}`);
}

/** A tone curve: a table, a power, or one of the parametric forms. */
function curveOf(view: DataView, at: number): (code: number) => number {
  if (nameAt(view, at) === "curv") {
    const count = view.getUint32(at + 8);
    if (count === 0) return (code) => code;
    if (count === 1) return (code) => code ** (view.getUint16(at + 12) / 256);
    return (code) => {
      const place = code * (count - 1);
      const low = Math.min(count - 2, Math.floor(place));
      const value = (k: number): number => view.getUint16(at + 12 + 2 * k) / 65535;
      return value(low) + (place - low) * (value(low + 1) - value(low));
    };
  }
  if (nameAt(view, at) !== "para") throw new RangeError("no curve");
  const form = view.getUint16(at + 8);
  const p = (k: number): number => view.getInt32(at + 12 + 4 * k) / 65536;
  if (form === 0) return (code) => code ** p(0);
  if (form !== 3 && form !== 4) throw new RangeError("no curve of a photo");
  const [e, f] = form === 4 ? [p(5), p(6)] : [0, 0];
  return (code) => (code >= p(4) ? (p(1) * code + p(2)) ** p(0) + e : p(3) * code + f);
}
