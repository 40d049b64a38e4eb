import { entry, type Source } from "./source.ts";

const byTitle = "cited by title and number; limits are the user's";

/** Standards on surface preparation and on tests after cleaning. */
export const acceptanceSources: readonly Source[] = [
  entry(
    "iso-8501-1",
    "standard",
    "ISO 8501-1, Preparation of steel substrates: visual assessment of surface cleanliness: rust grades and preparation grades",
    byTitle,
  ),
  entry(
    "iso-8502-3",
    "standard",
    "ISO 8502-3, Tests for the assessment of surface cleanliness: dust on steel surfaces prepared for painting (pressure-sensitive tape method)",
    byTitle,
  ),
  entry(
    "iso-8502-6",
    "standard",
    "ISO 8502-6, Tests for the assessment of surface cleanliness: extraction of water soluble contaminants for analysis",
    byTitle,
  ),
  entry(
    "iso-8502-9",
    "standard",
    "ISO 8502-9, Tests for the assessment of surface cleanliness: conductometric determination of water-soluble salts",
    byTitle,
  ),
  entry(
    "iso-8503-1",
    "standard",
    "ISO 8503-1, Surface roughness characteristics of blast-cleaned steel substrates: comparators",
    byTitle,
  ),
  entry(
    "iso-8503-5",
    "standard",
    "ISO 8503-5, Surface roughness characteristics of blast-cleaned steel substrates: replica tape method",
    byTitle,
  ),
  entry("iso-4624", "standard", "ISO 4624, Paints and varnishes: pull-off test for adhesion", byTitle),
  entry("iso-2409", "standard", "ISO 2409, Paints and varnishes: cross-cut test", byTitle),
  entry("iso-2808", "standard", "ISO 2808, Paints and varnishes: determination of film thickness", byTitle),
  entry(
    "iso-4628-3",
    "standard",
    "ISO 4628-3, Paints and varnishes: evaluation of degradation of coatings: assessment of degree of rusting",
    byTitle,
  ),
  entry(
    "iso-10289",
    "standard",
    "ISO 10289, Corrosion testing of metallic and other inorganic coatings on metallic substrates: rating of test specimens",
    byTitle,
  ),
  entry("iso-21920", "standard", "ISO 21920, Geometrical product specifications: surface texture: profile", byTitle),
  entry("iso-6507-1", "standard", "ISO 6507-1, Metallic materials: Vickers hardness test", byTitle),
  entry(
    "iso-5817",
    "standard",
    "ISO 5817, Welding: quality levels for imperfections of fusion-welded joints in steel, nickel, titanium and their alloys",
    byTitle,
  ),
  entry("astm-d610", "standard", "ASTM D610, Evaluating degree of rusting on painted steel surfaces", byTitle),
  entry("astm-f22", "standard", "ASTM F22, Hydrophobic surface films by the water-break test", byTitle),
];
