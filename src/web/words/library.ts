/** Words of the library page, in English. */
export const library = {
  title: "Library",
  lead: "What the predictions rest on. Every figure carries its spread and its source; those written from memory say so.",
  metals: "Metals",
  layers: "Layers",
  setups: "Laser set-ups",
  property: "Property",
  value: "Value",
  spread: "5 to 95 %",
  source: "Source",
  fromMemory: "from memory",
  search: "Search",
  limits: "Limits",
} as const;
