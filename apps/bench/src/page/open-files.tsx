import { useRef } from 'preact/hooks';

interface Props {
  /** On the button. */
  words: string;
  /** What the files are, for whoever hears the page. */
  label: string;
  /** Endings that are shown to be chosen from, with commas. */
  accept: string;
  several?: boolean;
  /** At least one file; the same may be chosen again afterwards. */
  onFiles: (files: readonly File[]) => Promise<void>;
}

/** A button that opens files of this machine. */
export function OpenFiles({ words, label, accept, several = false, onFiles }: Props) {
  const chooser = useRef<HTMLInputElement>(null);
  const chosen = (list: FileList | null): void => {
    const files = Array.from(list ?? []);
    chooser.current!.value = '';
    if (files.length > 0) void onFiles(files);
  };
  return (
    <>
      <button type="button" onClick={() => chooser.current!.click()}>
        {words}
      </button>
      <input
        ref={chooser}
        type="file"
        hidden
        multiple={several}
        accept={accept}
        aria-label={label}
        onChange={(event) => chosen(event.currentTarget.files)}
      />
    </>
  );
}
