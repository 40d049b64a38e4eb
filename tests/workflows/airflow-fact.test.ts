import { expect, it } from "vitest";
import { airflowFact } from "../../src/workflows/airflow-fact.ts";

it("says the air of a hood by hand: 0.75·(10·0.01 + 0.00785)·0.5 m³/s is 146 m³/h, and 1,101 at twice the distance and speed", () => {
  expect(airflowFact().value).toMatch(/^146 m³\/h at 100 mm and 0\.5 m\/s, to 1,?10\d m³\/h at 200 mm/);
  expect(airflowFact().note).toContain("from memory");
});
