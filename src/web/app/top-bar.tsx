import { ActionIcon, useComputedColorScheme, useMantineColorScheme } from "@mantine/core";
import type { ReactNode } from "react";
import mark from "../mark.svg?url";
import { setUnitSystem, useUnitSystem } from "../show/unit-system.ts";
import { words } from "../words/index.ts";

interface Props {
  readonly where?: ReactNode;
  readonly tools?: ReactNode;
}

export function TopBar({ where, tools }: Props) {
  return (
    <header className="top">
      <a className="brand" href="#/enquiries">
        <img src={mark} alt="" />
        <span>{words.frame.name}</span>
      </a>
      <div className="where">{where}</div>
      <div className="tools">
        {tools}
        <a href="#/archive" className="small">
          {words.frame.archive}
        </a>
        <a href="#/library" className="small">
          {words.frame.library}
        </a>
        <UnitSwitch />
        <LightSwitch />
      </div>
    </header>
  );
}

/** Display only: what is typed into machines and files stays in the units that their fields name. */
function UnitSwitch() {
  const now = useUnitSystem();
  const other = now === "metric" ? "us" : "metric";
  return (
    <button
      type="button"
      className="unit-switch small"
      title={words.frame.unitsTo[other]}
      aria-label={words.frame.unitsTo[other]}
      onClick={() => setUnitSystem(other)}
    >
      {words.frame.units[now]}
    </button>
  );
}

function LightSwitch() {
  const { setColorScheme } = useMantineColorScheme();
  const scheme = useComputedColorScheme("light");
  const other = scheme === "dark" ? "light" : "dark";
  return (
    <ActionIcon
      variant="subtle"
      color="gray"
      size="lg"
      aria-label={words.frame.switchTo[other]}
      title={words.frame.switchTo[other]}
      onClick={() => setColorScheme(other)}
    >
      <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
        <circle cx="9" cy="9" r="7" fill="none" stroke="var(--ink)" strokeWidth="1.5" />
        <path d="M9 2 A7 7 0 0 1 9 16 Z" fill="var(--ink)" />
      </svg>
    </ActionIcon>
  );
}
