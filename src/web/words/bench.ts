/** Words of the run list at the machine, in English. */
export const bench = {
  title: "At the machine",
} as const;
