import { TextInput } from "@mantine/core";
import { useQuery } from "@tanstack/react-query";
import { useEffect, useState } from "react";
import { readTrial } from "../api/run-log.ts";
import { linkTo } from "../app/route.ts";
import { words } from "../words/index.ts";
import "./bench.css";
import { BenchCautions } from "./bench-cautions.tsx";
import { BenchList } from "./bench-list.tsx";
import { keepOperator, readOperator } from "./kept-operator.ts";
import { RefusedEntries } from "./refused-entries.tsx";
import { useAwake } from "./use-awake.ts";
import { useBench } from "./use-bench.ts";
import { useKeeping } from "./use-keeping.ts";

const say = words.bench;
/** ms until the server is asked again for a list that this phone kept from an earlier time */
const OLD_MS = 15_000;

/** The run list of a trial, to tick off at the machine on a phone, with or without a network. */
export function BenchPage({ trialId }: { readonly trialId: string }) {
  const [operator, setOperator] = useState(readOperator);
  const bench = useBench(trialId, operator.trim());
  const { data, error } = useQuery({
    queryKey: ["bench-trial", trialId],
    queryFn: () => readTrial(trialId),
    // A browser that thinks it has no network may still reach the server, and the keeper answers in any case.
    networkMode: "always",
    retry: 3,
    refetchOnReconnect: true,
    // A list from an earlier time may not be the plan that holds now.
    refetchInterval: ({ state }) => (state.data?.old ? OLD_MS : false),
  });
  const awake = useAwake();
  const whole = data !== undefined && bench.state.opened;
  const keeping = useKeeping(trialId, whole);
  useEffect(() => {
    document.title = `${say.title} · ${trialId} · ${words.frame.name}`;
    return () => {
      document.title = words.frame.name;
    };
  }, [trialId]);
  return (
    <main id="work" tabIndex={-1} className="page bench stack">
      <header className="stack tight">
        <h1>{say.title}</h1>
        {data === undefined ? null : <p className="quiet">{say.trial(data.trial.id, data.trial.setupId)}</p>}
      </header>
      <BenchCautions trialId={trialId} cautions={data?.cautions ?? []} />
      {bench.failure === null ? null : (
        <p className="note bad" role="alert">
          {bench.failure}
        </p>
      )}
      <RefusedEntries bench={bench} />
      <TextInput
        label={say.who}
        description={say.whoHelp}
        value={operator}
        size="md"
        maxLength={80}
        autoComplete="name"
        onChange={(event) => {
          setOperator(event.currentTarget.value);
          keepOperator(event.currentTarget.value);
        }}
      />
      {data === undefined ? (
        error === null ? (
          <p className="quiet">{say.opening}</p>
        ) : (
          <p className="note bad" role="alert">
            {say.notOpened} {error.message}
          </p>
        )
      ) : (
        <BenchList trial={data.trial} bench={bench} />
      )}
      <footer className="stack tight small quiet">
        <p role="status">{say.keeping[keeping]}</p>
        <p>{awake ? say.awake.on : say.awake.off}</p>
        {data === undefined ? null : (
          <p>
            <a href={linkTo({ enquiryId: data.trial.enquiryId, step: "trial", query: { part: data.trial.partId } })}>
              {say.toDesk}
            </a>
          </p>
        )}
      </footer>
    </main>
  );
}
