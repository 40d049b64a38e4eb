import { Button, FileButton, Textarea } from "@mantine/core";
import { useState } from "react";
import { type Recorded, sendOutcomesCsv } from "../../api/trials.ts";
import { words } from "../../words/index.ts";

/** Outcomes from a table: rows that do not fit are named by their line, the rest is kept. */
export function CsvPanel({ trialId, onRead }: { readonly trialId: string; readonly onRead: () => Promise<unknown> }) {
  const [text, setText] = useState("");
  const [answer, setAnswer] = useState<Recorded | null>(null);
  const [line, setLine] = useState<string | null>(null);
  const send = async () => {
    try {
      setAnswer(await sendOutcomesCsv(trialId, text));
      setLine(null);
      await onRead();
    } catch (error) {
      setAnswer(null);
      setLine(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <section className="sheet stack tight">
      <h2>{words.results.csvTitle}</h2>
      <p className="small quiet">{words.results.csvHelp}</p>
      <Textarea
        label={words.results.csvField}
        value={text}
        onChange={(e) => setText(e.currentTarget.value)}
        autosize
        minRows={3}
        maxRows={12}
      />
      <div className="row">
        <FileButton accept=".csv,text/csv" onChange={async (file) => file && setText(await file.text())}>
          {(props) => (
            <Button variant="default" {...props}>
              {words.results.csvFile}
            </Button>
          )}
        </FileButton>
        <Button onClick={send} disabled={text.trim() === ""}>
          {words.results.csvSend}
        </Button>
      </div>
      {line ? (
        <p className="note bad" role="alert">
          {line}
        </p>
      ) : null}
      {answer ? (
        <div className={`note ${answer.refused.length > 0 ? "warn" : "good"}`} role="status">
          <p>{words.results.accepted(answer.accepted)}</p>
          {answer.refused.length > 0 ? (
            <>
              <p>{words.results.refused(answer.refused.length)}</p>
              <ul>
                {answer.refused.slice(0, 50).map((r) => (
                  <li key={`${r.line} ${r.error}`}>
                    {words.results.line(r.line)}: {r.error}
                  </li>
                ))}
              </ul>
            </>
          ) : null}
        </div>
      ) : null}
    </section>
  );
}
