import { Button } from '#web/ui/button.tsx';
import styles from './bring.module.css';
import { type BroughtFile, sayKind, saySize } from './brought-files.ts';

interface Props {
  files: readonly BroughtFile[];
  shown: number;
  isBusy: boolean;
  onShow: (id: number) => void;
  onRemove: (id: number) => void;
}

/** The files in hand; with several, which of them is looked at. */
export const FileList = ({ files, shown, isBusy, onShow, onRemove }: Props) => (
  <fieldset>
    <legend className={files.length === 1 ? 'only-spoken' : styles.soft}>
      {files.length === 1 ? 'The file in hand' : 'Looked at below'}
    </legend>
    <ul className={styles.files}>
      {files.map(({ id, file }) => (
        <li key={id}>
          {files.length === 1 ? (
            <p className={styles.fileLine}>
              <FileWords file={file} />
            </p>
          ) : (
            <label className={styles.fileLine}>
              <input type="radio" name="shown-file" checked={id === shown} onChange={() => onShow(id)} />
              <FileWords file={file} />
            </label>
          )}
          <Button
            kind="quiet"
            disabled={isBusy}
            aria-label={`Take out ${file.name}`}
            onClick={() => onRemove(id)}
          >
            Take out
          </Button>
        </li>
      ))}
    </ul>
  </fieldset>
);

const FileWords = ({ file }: { file: File }) => (
  <>
    <span className={styles.fileName}>{file.name}</span>
    <span className={styles.soft}>
      {saySize(file.size)}, {sayKind(file.name)}
    </span>
  </>
);
