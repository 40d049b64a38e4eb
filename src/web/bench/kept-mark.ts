/** Header of an answer that this browser kept earlier, because nobody answered now. The keeper has its own copy: it is a file apart. */
export const KEPT_MARK = "x-kept-here";
