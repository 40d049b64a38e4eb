import { Button, FileButton } from "@mantine/core";
import { useState } from "react";
import { words } from "../words/index.ts";

interface Props {
  readonly disabled: boolean;
  readonly onFiles: (files: readonly File[]) => void;
}

const kinds = "image/jpeg,image/png,image/heic,image/heif,.jpg,.jpeg,.png,.heic,.heif";
const say = words.photographs.drop;

/** Drop, choose or take photographs. */
export function PhotoDrop({ disabled, onFiles }: Props) {
  const [over, setOver] = useState(false);
  const take = (files: readonly File[]) => {
    if (files.length > 0 && !disabled) onFiles(files);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the buttons inside do the same
    <div
      className={`photo-drop${over ? " over" : ""}`}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(!disabled);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        take([...event.dataTransfer.files]);
      }}
    >
      <h3>{over ? say.let : say.label}</h3>
      <p className="small quiet">{say.help}</p>
      <div className="row">
        <FileButton
          accept={kinds}
          multiple
          onChange={take}
          disabled={disabled}
          inputProps={{ "aria-label": say.choose }}
        >
          {(props) => <Button {...props}>{say.choose}</Button>}
        </FileButton>
        <FileButton
          accept="image/*"
          capture="environment"
          onChange={(file) => take(file === null ? [] : [file])}
          disabled={disabled}
          inputProps={{ "aria-label": say.take }}
        >
          {(props) => (
            <Button variant="default" {...props}>
              {say.take}
            </Button>
          )}
        </FileButton>
      </div>
    </div>
  );
}
