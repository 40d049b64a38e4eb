import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { jsonSchema, jsonSchemaText, parseEnquiry, parseJsonText, parseSetting, publishedSchemas } from "#contract";
import { layerKinds, metals, setup } from "#library";

const file = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), "utf8");

describe("published schemas", () => {
  it.each(publishedSchemas)("%s is as committed (run scripts/schemas.ts after a change)", (name) => {
    expect(file(`schemas/${name}.schema.json`)).toBe(jsonSchemaText(name));
  });

  it("state bounds and refuse unknown fields", () => {
    const thickness_um = { exclusiveMinimum: 0, maximum: 20_000, type: ["number", "string"] };
    const layers = { items: { additionalProperties: false, properties: { thickness_um } } };
    expect(jsonSchema("enquiry")).toMatchObject({
      additionalProperties: false,
      required: ["parts"],
      properties: { parts: { items: { additionalProperties: false, properties: { layers } } } },
    });
  });

  it("are all there", () => {
    const files = readdirSync(new URL("../../schemas", import.meta.url));
    for (const name of publishedSchemas) expect(files).toContain(`${name}.schema.json`);
  });
});

describe("the examples", () => {
  it("fit the shapes and the library", () => {
    const enquiry = parseEnquiry(parseJsonText(file("examples/enquiry.json"), "enquiry.json"), { metals, layerKinds });
    expect(enquiry.invented).toBe(true);
    expect(enquiry.parts.map((p) => [p.material, p.lead])).toEqual([
      ["aluminium-5083", "no"],
      ["steel-low-carbon", "unknown"],
    ]);
    expect(enquiry.parts[1]?.unknowns).toContain("lead content");
    const setting = parseSetting(parseJsonText(file("examples/setting.json"), "setting.json"), setup("pulsed-100"));
    expect(setting.pulseWidth).toBeGreaterThan(0);
  });
});
