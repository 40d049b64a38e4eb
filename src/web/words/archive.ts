/** Words of the archive, in English. */
export const archive = {
  title: "Archive",
  list: {
    count: (found: number, all: number) =>
      found === all ? `${all} ${all === 1 ? "enquiry" : "enquiries"}` : `${found} of ${all} enquiries`,
    more: (left: number) => `Show more of ${left}`,
  },
} as const;
