import { contourLines, escapeXml, mapColour } from "#drawing";
import { describe, expect, it } from "vitest";
import { at, axisOf, tickText, ticks } from "../../src/drawing/axis.ts";
import { textWidth, wrapText } from "../../src/drawing/lettering.ts";
import { coordinate, element } from "../../src/drawing/xml.ts";
import { readXml } from "./xml-check.ts";

describe("markup", () => {
  it("escapes what would break out of text or attributes, and drops control characters", () => {
    expect(escapeXml(`<a b="c" d='e'>&\u0007`)).toBe("&lt;a b=&quot;c&quot; d=&#39;e&#39;&gt;&amp;");
    const node = readXml(element("text", { fill: `red" onload="x` }, escapeXml("a < b & c")));
    expect(Object.keys(node.attributes)).toEqual(["fill"]);
  });

  it("refuses a coordinate that is not a number", () => {
    expect(() => coordinate(Number.NaN)).toThrow("invalid coordinate: not a number (must be finite)");
    expect(coordinate(1.23456)).toBe("1.235");
    expect(coordinate(-0.0001)).toBe("0");
    expect(coordinate(100)).toBe("100");
  });

  it("the checker itself sees broken markup", () => {
    for (const broken of ["<a><b></a></b>", "<a>&</a>", '<a b="1" b="2"/>', "<a", "<a/><b/>", "<a>>"])
      expect(() => readXml(broken), broken).toThrow();
  });
});

describe("axis", () => {
  it("puts decades at equal distances and clamps beyond the ends", () => {
    const axis = axisOf(1, 100, 0, 200, true);
    expect(at(axis, 10)).toBeCloseTo(100, 9);
    expect(at(axis, 0.01)).toBe(0);
    expect(at(axis, 1e6)).toBe(200);
  });

  it("chooses round ticks", () => {
    expect(ticks(axisOf(1, 100, 0, 1, true))).toEqual([1, 2, 5, 10, 20, 50, 100]);
    expect(ticks(axisOf(0, 4, 0, 1, false), 5)).toEqual([0, 1, 2, 3, 4]);
    expect(ticks(axisOf(1, 1e9, 0, 1, true)).length).toBeLessThanOrEqual(8);
    expect(tickText(0.30000000000000004)).toBe("0.3");
  });

  it("refuses an axis without length", () => {
    expect(() => axisOf(2, 2, 0, 1, false)).toThrow("invalid axis end");
    expect(() => axisOf(0, 2, 0, 1, true)).toThrow("invalid axis start");
  });
});

describe("colour maps", () => {
  /** relative luminance, IEC 61966-2-1 (sRGB) and its weights */
  const luminance = (hex: string): number => {
    const [r, g, b] = [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255);
    const linear = (c: number): number => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
    return 0.2126 * linear(r!) + 0.7152 * linear(g!) + 0.0722 * linear(b!);
  };

  it.each(["cividis", "viridis"] as const)("%s grows lighter all the way", (name) => {
    let last = -1;
    for (let k = 0; k <= 50; k++) {
      const now = luminance(mapColour(k / 50, name));
      expect(now).toBeGreaterThan(last);
      last = now;
    }
  });

  it("hits its ends and refuses shares outside", () => {
    expect(mapColour(0)).toBe("#00224e");
    expect(mapColour(1)).toBe("#fee838");
    expect(() => mapColour(1.1)).toThrow("invalid share");
    expect(() => mapColour(Number.NaN)).toThrow("invalid share");
  });
});

describe("lettering", () => {
  it("breaks lines within the width and cuts a word that is too long", () => {
    const lines = wrapText("where the layer starts to come off and Donaudampfschifffahrtsgesellschaft", 10, 120);
    expect(lines.every((line) => textWidth(line, 10) <= 120)).toBe(true);
    expect(lines.at(-1)).toMatch(/…$/);
  });
});

describe("contour lines", () => {
  it("a plane is cut in a straight line at the right place", () => {
    const values = Array.from({ length: 20 }, (_, k) => k % 5);
    const lines = contourLines(values, 5, 1.25);
    expect(lines).toHaveLength(1);
    expect(lines[0]!.every(([x]) => Math.abs(x - 1.25) < 1e-12)).toBe(true);
    expect(lines[0]!).toHaveLength(4);
  });

  it("a hill gives one closed ring near the true circle", () => {
    const n = 41;
    const radius = (i: number, j: number): number => Math.hypot(i - 20, j - 20);
    const values = Array.from({ length: n * n }, (_, k) => -radius(k % n, Math.floor(k / n)));
    const [ring, ...others] = contourLines(values, n, -12);
    expect(others).toHaveLength(0);
    expect(ring![0]).toEqual(ring!.at(-1));
    for (const [x, y] of ring!) expect(Math.abs(radius(x, y) - 12)).toBeLessThan(0.02);
  });

  it("settles a saddle by the mean of the corners", () => {
    const joined = contourLines([1, 0, 0.2, 1], 2, 0.5);
    expect(joined).toHaveLength(2);
    // corners 0 and 3 are high and the mean 0.55 is above the level: the lines cut off the low corners
    const touchesLow = joined.some((line) => line.every(([x, y]) => x + (1 - y) > 1));
    expect(touchesLow).toBe(true);
    const parted = contourLines([1, 0, 0, 0.6], 2, 0.5);
    expect(parted.some((line) => line.every(([x, y]) => x + y < 1))).toBe(true);
  });

  it("finds nothing outside the range of the values and refuses a ragged grid", () => {
    expect(contourLines([0, 1, 0, 1], 2, 2)).toEqual([]);
    expect(() => contourLines([0, 1, 2], 2, 1)).toThrow("invalid columns");
  });
});
