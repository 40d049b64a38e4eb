/** The part that the archive was asked about, where it was. */
export interface Goal {
  readonly enquiryId: string;
  readonly partId: string | null;
}
