import { Button, Drawer } from "@mantine/core";
import { useQuery } from "@tanstack/react-query";
import { getHistory, getVersion } from "../api/enquiries.ts";
import { whenText } from "../show/when.ts";
import { words } from "../words/index.ts";
import { Logbook } from "./logbook.tsx";
import type { Draft } from "./use-draft.ts";

interface Props {
  readonly enquiryId: string;
  readonly draft: Draft;
  readonly opened: boolean;
  readonly onClose: () => void;
}

export function HistoryDrawer({ enquiryId, draft, opened, onClose }: Props) {
  const history = useQuery({
    queryKey: ["history", enquiryId, draft.version],
    queryFn: () => getHistory(enquiryId),
    enabled: opened,
  });
  const takeBack = async (version: number) => {
    const old = await getVersion(enquiryId, version);
    draft.change(() => old.enquiry);
    onClose();
  };
  return (
    <Drawer
      opened={opened}
      onClose={onClose}
      position="right"
      title={words.save.history}
      closeButtonProps={{ "aria-label": words.frame.close }}
    >
      <div className="stack">
        <p className="quiet small">{words.save.historyLead}</p>
        {history.error ? <p className="note bad">{history.error.message}</p> : null}
        <ul style={{ margin: 0, padding: 0, listStyle: "none" }} className="stack tight">
          {(history.data?.versions ?? []).map((item) => (
            <li key={item.version} className="row apart middle">
              <span>
                {words.save.version(item.version)} <span className="quiet small">{whenText(item.savedAt)}</span>
              </span>
              {item.version === draft.version ? (
                <span className="tag">{words.save.current}</span>
              ) : (
                <Button size="compact-sm" variant="default" onClick={() => void takeBack(item.version)}>
                  {words.save.takeBack}
                </Button>
              )}
            </li>
          ))}
        </ul>
        <Logbook enquiryId={enquiryId} opened={opened} />
      </div>
    </Drawer>
  );
}
