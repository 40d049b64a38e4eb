/** Words of the record of an enquiry, in English. */
export const logbook = {
  title: "Everything recorded",
  lead: "Each save adds a line; none is ever overwritten.",
  look: "look",
  more: "Older lines are kept and not shown here.",
  outcomes: (count: number, trial: string, grader: string) =>
    `${count} ${count === 1 ? "outcome" : "outcomes"} of ${trial}${grader === "" ? "" : `, by ${grader}`}`,
  answer: (id: string) => `${id}: report and papers written`,
  version: (name: string, version: number) => `${name}, version ${version}`,
  record: (name: string, id: string, version: number) => `${name} ${id}, version ${version}`,
  kinds: {
    enquiry: "enquiry",
    trial: "trial",
    sample: "sample",
    grading: "graded coupon",
    belief: "what a trial taught",
    "shop-record": "shop figures",
    "run-log": "run list",
  },
} as const;
