import { entry, type Source } from "./source.ts";

const fromMemory = "paid document; figures from memory until confirmed";

/** Exposure limits, hazard distances, eyewear, curtains, fume. */
export const safetySources: readonly Source[] = [
  entry(
    "directive-2006-25-ec",
    "directive",
    "Directive 2006/25/EC on the minimum health and safety requirements regarding exposure of workers to artificial optical radiation, Annex II",
  ),
  entry(
    "iec-60825-1",
    "standard",
    "IEC 60825-1:2014, Safety of laser products: Part 1: Equipment classification and requirements",
    fromMemory,
  ),
  entry("iec-60825-14", "guidance", "IEC TR 60825-14, Safety of laser products: Part 14: A user's guide", fromMemory),
  entry(
    "en-207",
    "standard",
    "EN 207, Personal eye-protection equipment: filters and eye-protectors against laser radiation",
    `${fromMemory}; replaced by ISO 19818-1`,
  ),
  entry(
    "iso-19818-1",
    "standard",
    "ISO 19818-1:2021, Eye and face protection: protection against laser radiation: Part 1: Requirements and test methods",
    fromMemory,
  ),
  entry(
    "en-12254",
    "standard",
    "EN 12254, Screens for laser working places: safety requirements and testing",
    fromMemory,
  ),
  entry("iec-60825-4", "standard", "IEC 60825-4, Safety of laser products: Part 4: Laser guards", fromMemory),
  entry(
    "iso-11553-1",
    "standard",
    "ISO 11553-1, Safety of machinery: laser processing machines: Part 1: Laser safety requirements",
    fromMemory,
  ),
  entry("dguv-203-093", "guidance", "DGUV Information 203-093, guidance on hand-held laser machines"),
  entry(
    "dguv-203-042",
    "guidance",
    "DGUV Information 203-042, selection and use of laser safety and laser alignment eyewear",
  ),
  entry("auva-m-082", "guidance", "AUVA Merkblatt M 082, guidance on lasers for materials processing"),
  entry(
    "osha-laser-hazards",
    "guidance",
    "Occupational Safety and Health Administration, Technical Manual, section on laser hazards",
    "table from memory, its arithmetic closes",
  ),
  entry(
    "university-laser-guidance",
    "guidance",
    "Laser safety guidance of universities: visible light, 0.25 s",
    "the same as 18 t^0.75 J/m²",
  ),
  entry(
    "en-60335-2-69",
    "standard",
    "EN 60335-2-69, Household and similar electrical appliances: wet and dry vacuum cleaners for commercial use, dust classes",
    fromMemory,
  ),
  entry(
    "osha-1910-1000",
    "directive",
    "Occupational Safety and Health Administration, 29 CFR 1910.1000, Tables Z-1 and Z-2, air contaminants",
  ),
  entry("osha-1910-1025", "directive", "Occupational Safety and Health Administration, 29 CFR 1910.1025, Lead"),
  entry(
    "osha-1910-1026",
    "directive",
    "Occupational Safety and Health Administration, 29 CFR 1910.1026, Chromium (VI)",
  ),
  entry("osha-1910-1027", "directive", "Occupational Safety and Health Administration, 29 CFR 1910.1027, Cadmium"),
  entry(
    "niosh-pocket-guide",
    "guidance",
    "National Institute for Occupational Safety and Health, Pocket Guide to Chemical Hazards",
  ),
  entry(
    "directive-2004-37-ec",
    "directive",
    "Directive 2004/37/EC on carcinogens, mutagens or reprotoxic substances at work, as amended",
  ),
  entry(
    "directive-eu-2024-869",
    "directive",
    "Directive (EU) 2024/869, limit values for lead and its compounds and for diisocyanates",
  ),
  entry(
    "acgih-ventilation",
    "handbook",
    "ACGIH, Industrial Ventilation: A Manual of Recommended Practice",
    "capture formula from memory; the check value is its worked example",
  ),
];
