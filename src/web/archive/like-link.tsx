import { linkTo } from "../app/route.ts";
import { words } from "../words/index.ts";

interface Props {
  readonly enquiryId: string;
  readonly partId: string;
  /** id of a set-up that counts too; left out or null: any */
  readonly laser?: string | null;
}

/** From a part of an enquiry to the kept trials that are like it. */
export function LikeLink({ enquiryId, partId, laser }: Props) {
  return (
    <a href={linkTo({ page: "archive", query: { enquiry: enquiryId, part: partId, laser: laser ?? null } })}>
      {words.archive.link}
    </a>
  );
}
