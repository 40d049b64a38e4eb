import { Button } from "@mantine/core";
import { pageTheme, twoEdgeBarSvg } from "#drawing";
import { settingLine } from "#report";
import type { SetupVerdict } from "#terms";
import { quantityText } from "../../show/quantity-text.ts";
import { goTo, linkTo } from "../../app/route.ts";
import { keepWorkingSetting } from "../../live/kept-choice.ts";
import { SvgPicture } from "../../show/svg-picture.tsx";
import { words } from "../../words/index.ts";

interface Props {
  readonly verdict: SetupVerdict;
  readonly enquiryId: string;
  readonly partId: string;
}

/** One set-up on this part: its bar, its best setting, its rate, how sure, and why it falls short. */
export function VerdictRow({ verdict, enquiryId, partId }: Props) {
  const { best } = verdict;
  const svg = twoEdgeBarSvg([{ label: "", kind: verdict.kind, bar: verdict.bar, note: "" }], {
    theme: pageTheme,
    id: `bar-${verdict.setupId}`,
    legend: false,
    width: 680,
  });
  const take = () => {
    if (!best) return;
    keepWorkingSetting(enquiryId, partId, { setupId: verdict.setupId, setting: best.setting });
    goTo(linkTo({ enquiryId, step: "setting", query: { part: partId } }));
  };
  return (
    <article className="verdict">
      <header>
        <h2>{verdict.setupName}</h2>
        <span className={`tag ${verdict.windowExists ? "good" : "bad"}`}>
          {verdict.windowExists ? words.lasers.window : words.lasers.noWindow}
        </span>
        {verdict.shortfall !== "none" ? <span className="tag warn">{words.shortfalls[verdict.shortfall]}</span> : null}
      </header>
      <SvgPicture svg={svg} label={`${verdict.setupName}: ${verdict.reason}`} size="full" trim />
      <p>{verdict.reason}</p>
      <div className="facts">
        <span>
          {words.lasers.rate} <b>{quantityText(verdict.areaRate, "m2/h")}</b>
        </span>
        <span>
          {words.lasers.sure} <b>{quantityText(verdict.sureness, "%", 2)}</b>
        </span>
        <span>
          {words.lasers.power} <b>{quantityText(verdict.meanPower, "W")}</b>
        </span>
        <span>
          {words.lasers.delivery} <b>{words.deliveries[verdict.delivery]}</b>
        </span>
      </div>
      {best ? (
        <div className="row apart middle">
          <p className="small quiet grow" style={{ flexBasis: 300 }}>
            {words.lasers.best}: {settingLine(best.setting)}
          </p>
          <Button
            variant="default"
            size="compact-md"
            onClick={take}
            aria-label={`${words.lasers.take}: ${verdict.setupName}`}
          >
            {words.lasers.take}
          </Button>
        </div>
      ) : null}
    </article>
  );
}
