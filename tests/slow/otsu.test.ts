import { execFileSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { type PatchView, referenceOfColour, residueOf, unmix } from "#grading";

/** Picture and mask of scikit-image (Debian's python3-skimage, for Debian's own Python): grey codes, and where they are above Otsu's threshold. */
const script = `
import base64, json, sys
from skimage import data, filters
picture = getattr(data, sys.argv[1])()
threshold = filters.threshold_otsu(picture)
text = lambda a: base64.b64encode(a.astype("uint8").tobytes()).decode()
print(json.dumps({"width": picture.shape[1], "height": picture.shape[0], "threshold": float(threshold),
  "codes": text(picture), "above": text(picture > threshold)}))
`;

function sample(name: string) {
  const out = execFileSync("/usr/bin/python3", ["-c", script, name], { encoding: "utf8", maxBuffer: 64e6 });
  const { width, height, threshold, codes, above } = JSON.parse(out);
  const bytes = (text: string) => new Uint8Array(Buffer.from(text, "base64"));
  return { width, height, threshold, codes: bytes(codes), above: bytes(above) } as const;
}

const meanOf = (codes: Uint8Array, above: Uint8Array, which: number): number => {
  let [sum, count] = [0, 0];
  codes.forEach((code, i) => {
    if (above[i] !== which) return;
    sum += code / 255;
    count += 1;
  });
  return sum / count;
};

/**
 * Otsu's threshold lies half way between the means of the two classes that it makes (Otsu, IEEE Trans. SMC 9 (1979) 62: the
 * stationary point of the variance between classes), to the step of a code. A pixel nearer to one of two references than
 * to the other is the same thing, so that the masks must agree but for that step. The product itself thresholds no histogram:
 * its references are patches, not classes of the picture.
 */
describe("pixels nearer to one of two references, against the masks of scikit-image", () => {
  it.each(["camera", "coins", "page", "moon"])("%s: the same pixels but for a code's step", (name) => {
    const { width, height, threshold, codes, above } = sample(name);
    const [low, high] = [0, 1].map((which) => meanOf(codes, above, which)) as [number, number];
    expect(Math.abs((255 * (low + high)) / 2 - threshold)).toBeLessThan(1);
    const rgb = Float32Array.from({ length: 3 * codes.length }, (_, i) => codes[Math.floor(i / 3)]! / 255);
    const view: PatchView = { width, height, rgb, pixelsPerMm: 10, margin: 0, blur: 0 };
    const u = unmix(view, referenceOfColour([low, low, low]), referenceOfColour([high, high, high]));
    let [other, near] = [0, 0];
    u.forEach((place, i) => {
      if (place > 0.5 !== (above[i] === 1)) other += 1;
      if (Math.abs(codes[i]! - threshold) <= 1) near += 1;
    });
    expect(other).toBeLessThanOrEqual(near);
    expect(other / u.length).toBeLessThan(0.015);
    const share = above.reduce((sum, v) => sum + v, 0) / above.length;
    expect(Math.abs(residueOf(u, 0).coverage - share)).toBeLessThan(0.015);
  });
});
