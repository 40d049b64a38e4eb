import { later } from "./later.ts";

export const pages = {
  list: later(() => import("../enquiries/enquiry-list.tsx").then((m) => m.EnquiryList)),
  enquiry: later(() => import("../enquiry/enquiry-page.tsx").then((m) => m.EnquiryPage)),
  library: later(() => import("../library/library-page.tsx").then((m) => m.LibraryPage)),
  archive: later(() => import("../archive/archive-page.tsx").then((m) => m.ArchivePage)),
  bench: later(() => import("../bench/bench-page.tsx").then((m) => m.BenchPage)),
} as const;
