/** Words of the live setting, in English. */
export const live = {
  film: "One pulse through the stack",
} as const;
