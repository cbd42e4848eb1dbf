import { useId, useState } from 'react';
import type { Packet, PacketFile } from '#server/contract/packets.ts';
import { useAddPhoto, useFileAddress } from '#web/api/use-packet-files.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './photos.module.css';
import { isFileFault, SendProblem } from './send-problem.tsx';

const types = 'image/jpeg,image/png,image/webp';

/** Pictures of what was found. One that could not be sent waits here while the page is open. */
export function Photos({ packet, mayAdd, onLook }: { packet: Packet; mayAdd: boolean; onLook: () => void }) {
  const photos = packet.files.filter(({ kind }) => kind === 'photo');
  const add = useAddPhoto(packet.id);
  const [waiting, setWaiting] = useState<readonly File[]>([]);
  const [refused, setRefused] = useState<readonly unknown[]>([]);
  const sendAll = async (files: readonly File[]) => {
    let rest = files;
    setWaiting(rest);
    setRefused([]);
    for (const file of files) {
      const error: unknown = await add.mutateAsync(file).then(
        () => null,
        (reason: unknown) => reason,
      );
      // What is no photo would never be taken; the others are not held up by it.
      if (isFileFault(error)) setRefused((before) => [...before, error]);
      else if (error !== null) return;
      rest = rest.filter((one) => one !== file);
      setWaiting(rest);
    }
  };
  return (
    <div className={styles.photos}>
      {photos.length > 0 && (
        <ul className={styles.list}>
          {photos.map((photo) => (
            <Photo key={photo.id} packet={packet.id} photo={photo} />
          ))}
        </ul>
      )}
      {photos.length === 0 && <p className={styles.soft}>No photo yet.</p>}
      {refused.map((error, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two may be alike
        <ProblemNote key={i} error={error} title="This photo was not taken" />
      ))}
      {add.isError && waiting.length > 0 && (
        <>
          <SendProblem
            error={add.error}
            what={`${waiting.length === 1 ? 'The photo' : `${waiting.length} photos`}, as long as this page is open,`}
            onAgain={() => void sendAll(waiting)}
            onLook={onLook}
          />
          <Button
            kind="quiet"
            onClick={() => {
              setWaiting([]);
              add.reset();
            }}
          >
            Drop {waiting.length === 1 ? 'this photo' : 'these photos'}
          </Button>
        </>
      )}
      {mayAdd && (
        <div className={styles.add}>
          <PhotoInput label="Take a photo" isCamera isPending={add.isPending} onFiles={sendAll} />
          <PhotoInput label="Choose photos" isPending={add.isPending} onFiles={sendAll} />
          {add.isPending && <span role="status">Sending {waiting[0]?.name}</span>}
        </div>
      )}
    </div>
  );
}

interface InputProps {
  label: string;
  isCamera?: boolean;
  isPending: boolean;
  onFiles: (files: File[]) => Promise<void>;
}

function PhotoInput({ label, isCamera = false, isPending, onFiles }: InputProps) {
  const id = useId();
  return (
    <span className={styles.input}>
      <input
        id={id}
        type="file"
        accept={types}
        {...(isCamera ? { capture: 'environment' as const } : { multiple: true })}
        disabled={isPending}
        onChange={(event) => {
          const files = [...(event.target.files ?? [])];
          event.target.value = '';
          if (files.length > 0) void onFiles(files);
        }}
      />
      <label htmlFor={id}>{label}</label>
    </span>
  );
}

function Photo({ packet, photo }: { packet: number; photo: PacketFile }) {
  const { address, isError } = useFileAddress(packet, photo.id);
  const words = `${photo.name}, ${photo.added_by}, ${formatMoment(photo.added_at)}`;
  return (
    <li className={styles.photo}>
      {address !== null && (
        <a href={address} target="_blank" rel="noopener">
          <img src={address} alt={words} loading="lazy" />
        </a>
      )}
      {address === null && <span className={styles.soft}>{isError ? 'cannot be loaded' : 'loading'}</span>}
      <span className={styles.caption} aria-hidden="true">
        {photo.added_by}, {formatMoment(photo.added_at)}
      </span>
    </li>
  );
}
