/** Words of the run list at the machine, in English. */
export const bench = {
  title: "At the machine",
  noAnswer: "the server does not answer",
  photoLost: "this phone has lost the photograph",
} as const;
