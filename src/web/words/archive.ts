const trials = (n: number): string => `${n} ${n === 1 ? "trial" : "trials"}`;

/** Words of the archive, in English. */
export const archive = {
  title: "Archive",
  lead: "Every trial that was kept, with what it found. Ask for a coat on a metal; what is likest comes first, and it says why.",
  ask: "What is known of",
  askHint: "a coat, a metal, a set-up, in any order",
  examplesLabel: "Ways to ask",
  examples: [
    "white polyurethane on 5083",
    "rust on steel",
    "epoxy primer 40 um on aluminium",
    "powder coat on steel with pulsed-500",
    "any coating with a continuous laser",
  ],
  setup: "Set-up",
  anySetup: "any set-up",
  likePart: "Like a part of an enquiry",
  askInWords: "Ask in words instead",
  back: "Back to the enquiry",
  searching: "Searching …",
  cancel: "Cancel",
  again: "Search again",
  cancelled: "The search was cancelled; below is what was found before.",
  understood: (question: string) => `Understood as: ${question}.`,
  notUnderstood: (ignored: readonly string[]) => `Not understood and left out: ${ignored.join(", ")}.`,
  count: (near: number, compared: number) =>
    near === 0
      ? `None of ${trials(compared)} is like it.`
      : `${trials(near)} of ${compared} are like it, likest first.`,
  newest: (n: number) => (n === 0 ? "" : `${trials(n)} kept, newest first.`),
  notCompared: (n: number) =>
    n === 1
      ? "1 trial cannot be compared: its enquiry is not kept, or describes no part on metal with a layer now."
      : `${n} trials cannot be compared: their enquiries are not kept, or describe no part on metal with a layer now.`,
  more: (left: number) => `Show more of ${trials(left)}`,
  noneTitle: "No trials kept yet",
  none: "A trial comes here as soon as its plan is kept, and its outcomes with it. Open the example of the list of enquiries to see a few, or plan a trial for a part of your own.",
  toList: "To the enquiries",
  nothingTitle: "Nothing like it has been tried",
  nothing:
    "Name less: the coat alone, or the metal alone. A word for a whole group works too: paint, oxide, plating. What nobody has tried has to be tried.",
  unreadTitle: "That names nothing that the library knows",
  unread: "Name a layer, a metal or a set-up of the library, as in one of these:",
  likeness: "Likeness",
  percent: (share: number) => `${Math.round(100 * share)} %`,
  on: (laser: string) => `on ${laser}`,
  of: (part: string, title: string) => `${part} of ${title}`,
  own: "of this very part",
  noEnquiry: "its enquiry is not kept here",
  trial: (id: string) => `trial ${id}`,
  saved: (when: string) => `saved ${when}`,
  planned: (n: number) => (n === 1 ? "1 patch planned" : `${n} patches planned`),
  noTrial: "the trial itself is not kept",
  nothingGraded: "nothing graded yet",
  graded: (n: number) => (n === 1 ? "1 patch graded" : `${n} patches graded`),
  result: (graded: number, clean: number, damaged: number) =>
    `${graded === 1 ? "1 patch" : `${graded} patches`} graded: ${clean} clean, ${damaged} damaged`,
  proven: "Recommended then, proven",
  notProven: "Recommended then, not proven",
  noWindow: "No window was found among the settings tried.",
  noSetting: "No setting was recommended yet.",
  openResults: "Open the trial",
  openWindow: "Its window",
  start: "Start from this",
  beginning: "A setting of another job is a place to begin a trial, no more.",
  cautions: "Cautions",
  /** what stands beside the list */
  about: "How to read this",
  aboutLikeness:
    "Likeness weighs coat, metal and, where asked for, set-up. It says where to look, not what will happen on your part.",
  copy: {
    title: "A new enquiry with this part",
    lead: "Copies the part with its layers and acceptance. Outcomes are not copied; lead, chromate and measured tests are asked anew.",
    make: "Make the enquiry",
    making: "Making it …",
    name: (part: string, title: string) => `${part}, as in ${title}`,
    note: (part: string, enquiry: string, trial: string) =>
      `Part copied from ${part} of enquiry ${enquiry}, found by trial ${trial}. Outcomes were not copied.`,
    missing: "The part is not in that enquiry any more.",
  },
  take: {
    title: "Its setting for a part of an enquiry",
    lead: "Puts the setting into the setting step of that part, to begin a trial from.",
    none: "This trial has no recommended setting to take.",
    noSetup: "The library does not know its set-up any more, so that its setting cannot be taken.",
    cannotRun: (why: string) => `The set-up cannot run this setting as the library has it now: ${why}`,
    enquiry: "Enquiry",
    chooseEnquiry: "choose an enquiry",
    part: "Part",
    take: "Take the setting",
    taken: (part: string, title: string) => `The setting now stands in ${part} of ${title}.`,
    open: "Open the setting",
    undo: "Put the former setting back",
    undone: "The former setting stands again.",
    noEnquiries: "There is no enquiry yet.",
  },
  link: "Like this part in the archive",
  list: {
    count: (found: number, all: number) =>
      found === all ? `${all} ${all === 1 ? "enquiry" : "enquiries"}` : `${found} of ${all} enquiries`,
    more: (left: number) => `Show more of ${left}`,
  },
} as const;
