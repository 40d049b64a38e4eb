/** Words of the archive, in English. */
export const archive = {
  title: "Archive",
} as const;
