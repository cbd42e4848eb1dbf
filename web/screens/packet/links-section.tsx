import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { Packet, PacketLink } from '#server/contract/packets.ts';
import { useMakeLink, usePacketLinks, useRevokeLink } from '#web/api/use-packet-links.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { readNumber } from '#web/format/read-number.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import { ChoiceLine } from '#web/ui/choice-lines.tsx';
import { CopyLine } from '#web/ui/copy-line.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './links-section.module.css';

/** Addresses that open this packet without an account, for a shop outside: made, shown once, watched and revoked. */
export function LinksSection({ packet }: { packet: Packet }) {
  const { data, isPending, isError, error, refetch } = usePacketLinks(packet.id);
  const [isOpen, setOpen] = useState(false);
  const ground = useRef<HTMLDivElement>(null);
  // What was pressed is gone: the first field has the focus, and afterwards the button again.
  const turn = (open: boolean) => {
    setOpen(open);
    requestAnimationFrame(() =>
      ground.current?.querySelector<HTMLElement>(open ? 'form input' : 'button')?.focus(),
    );
  };
  return (
    <div ref={ground} className={styles.links}>
      <p className={styles.lead}>
        A link opens this one packet without an account, for a shop outside. Whoever has it sees this vehicle
        until it expires or is revoked.
      </p>
      {isOpen ? (
        <LinkForm packet={packet} onLeave={() => turn(false)} />
      ) : (
        <p>
          <Button onClick={() => turn(true)}>Make a link</Button>
        </p>
      )}
      {isPending && <p role="status">Loading the links</p>}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {data !== undefined && data.length > 0 && (
        <ul className={styles.list}>
          {data.map((link) => (
            <OneLink key={link.id} packet={packet.id} link={link} />
          ))}
        </ul>
      )}
    </div>
  );
}

const days = { least: 1, most: 90, step: 1, unit: 'days' };

function LinkForm({ packet, onLeave }: { packet: Packet; onLeave: () => void }) {
  const make = useMakeLink(packet.id);
  const [label, setLabel] = useState('');
  const [forDays, setForDays] = useState('14');
  const [mayReport, setMayReport] = useState(false);
  const made = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (make.isSuccess) made.current?.focus();
  }, [make.isSuccess]);
  const [faults, setFaults] = useState<{ label?: string; days?: string }>({});
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = readNumber(forDays, days);
    const found = {
      ...(label.trim() === '' ? { label: 'Say whom it is for.' } : {}),
      ...(read.value === null ? { days: read.fault } : {}),
    };
    setFaults(found);
    if (read.value !== null && found.label === undefined)
      make.mutate({ label: label.trim(), days: read.value, may_report: mayReport });
  };
  if (make.isSuccess)
    return (
      <div ref={made} className={styles.made} tabIndex={-1}>
        <p>
          <strong>The link for {make.data.link.label} is shown this once.</strong> Copy it now.
        </p>
        <CopyLine name="Address of the link" value={make.data.address} />
        <Button onClick={onLeave}>I have it</Button>
      </div>
    );
  return (
    <form className={styles.form} onSubmit={submit} aria-label="Make a link" noValidate>
      <TextField
        label="Whom it is for"
        maxLength={120}
        value={label}
        error={faults.label}
        onChange={setLabel}
      />
      <TextField
        label="Works for, days"
        inputMode="numeric"
        value={forDays}
        error={faults.days}
        onChange={setForDays}
      />
      <ChoiceLine
        type="checkbox"
        label="May report"
        words="May record findings and close the job. Without it the link only shows."
        checked={mayReport}
        onChange={() => setMayReport(!mayReport)}
      />
      {make.isError && <ProblemNote error={make.error} />}
      <div className={styles.buttons}>
        <Button type="submit" kind="main" disabled={make.isPending}>
          Make the link
        </Button>
        <Button kind="quiet" onClick={onLeave}>
          Leave it
        </Button>
      </div>
    </form>
  );
}

function OneLink({ packet, link }: { packet: number; link: PacketLink }) {
  const revoke = useRevokeLink(packet);
  const [asks, setAsks] = useState(false);
  const { openings } = link;
  return (
    <li className={styles.link} data-state={link.state}>
      <p>
        <strong>{link.label}</strong> <span className={styles.state}>{sayState(link)}</span>
      </p>
      <p className={styles.soft}>
        {link.may_report ? 'may report' : 'shows only'}, made {formatMoment(link.made_at)} by {link.made_by}
      </p>
      {openings.length === 0 ? (
        <p className={styles.soft}>Not opened yet.</p>
      ) : (
        <details className={styles.openings}>
          <summary>
            {openings.length === 1 ? 'Opened once' : `Opened ${openings.length} times`}, last{' '}
            {formatMoment(openings[0]?.at)}
          </summary>
          <ul>
            {openings.map((one) => (
              <li key={`${one.at} ${one.what} ${one.from}`}>
                {formatMoment(one.at)}: {one.what}
                {one.browser !== '' && `, ${one.browser}`}
                {one.from !== null && `, from ${one.from}`}
              </li>
            ))}
          </ul>
        </details>
      )}
      {link.state === 'works' && (
        <p>
          <Button kind="grave" disabled={revoke.isPending} onClick={() => setAsks(true)}>
            Revoke
          </Button>
        </p>
      )}
      {revoke.isError && <ProblemNote error={revoke.error} />}
      {asks && (
        <AskDialog
          title={`Revoke the link for ${link.label}?`}
          yes="Revoke"
          onNo={() => setAsks(false)}
          onYes={() => {
            setAsks(false);
            revoke.mutate(link.id);
          }}
        >
          <p>It stops at once, also where it is open now. A revoked link does not come back.</p>
        </AskDialog>
      )}
    </li>
  );
}

function sayState({ state, expires_at, revoked_at, revoked_by }: PacketLink): string {
  if (state === 'revoked') return `revoked ${formatMoment(revoked_at)} by ${revoked_by}`;
  return state === 'works'
    ? `works until ${formatMoment(expires_at)}`
    : `expired ${formatMoment(expires_at)}`;
}
