import { ActionIcon, useComputedColorScheme, useMantineColorScheme } from "@mantine/core";
import type { ReactNode } from "react";
import mark from "../mark.svg?url";
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
        <a href="#/library" className="small">
          {words.frame.library}
        </a>
        <LightSwitch />
      </div>
    </header>
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
