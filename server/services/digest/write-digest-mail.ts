import { createHash } from 'node:crypto';
import type { Digest } from '#server/contract/digest.ts';
import { escapeHtml } from '#server/services/mail/escape-html.ts';
import type { Mail } from '#server/services/mail/mail.ts';
import { toHeaderText } from '#server/services/mail/to-header-text.ts';
import { dayWords } from '#server/services/words/day-words.ts';
import { listMailSections, type MailLine, type MailSection } from './mail-sections.ts';

interface Options {
  person: { id: string; name: string; email: string };
  /** origin that people use; null where none is set */
  publicUrl: string | null;
  /** of the sender */
  domain: string;
  date: Date;
}

/** A digest as one message, in text and in HTML: no pictures, no colours, so that it reads in any client and at night. */
export function writeDigestMail(digest: Digest, { person, publicUrl, domain, date }: Options): Mail {
  const at = (path: string) => (publicUrl === null ? null : publicUrl + path);
  const title = `Slipdrift, week of ${dayWords(Date.parse(digest.week))}`;
  const content: Content = {
    title,
    sentence: digest.sentence,
    sections: listMailSections(digest),
    span: `From ${momentWords(digest.from)} to ${momentWords(digest.to)}, UTC. Weeks begin on Monday, UTC.`,
    page: at(`/digest?week=${digest.week}`),
    account: at('/account'),
    vehicleAt: (vehicle) => at(`/vehicles/${encodeURIComponent(vehicle)}`),
  };
  return {
    to: { name: person.name, address: person.email },
    subject: `${title}: ${shortWords(digest)}`,
    text: writeText(content),
    html: writeHtml(content),
    messageId: `<digest-${digest.week}-${digestOf(`${person.id} ${digest.week}`)}@${domain}>`,
    date,
    unsubscribe: content.account,
  };
}

interface Content {
  title: string;
  sentence: string;
  sections: MailSection[];
  span: string;
  page: string | null;
  account: string | null;
  vehicleAt: (vehicle: string) => string | null;
}

const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, 24);

const momentWords = (at: string): string => `${dayWords(Date.parse(at))}, ${at.slice(11, 16)}`;

function shortWords({ uncovered_holds, newly_on_hold }: Digest): string {
  const uncovered = uncovered_holds?.length ?? 0;
  if (uncovered > 0) return `${uncovered} on hold without a day`;
  return newly_on_hold.length > 0 ? `${newly_on_hold.length} newly on hold` : 'no hold waits for a day';
}

const WHY = 'You get this every Monday because you asked for it on your account in Slipdrift.';
const moreWords = (n: number): string => `and ${n} more`;
const nothingWords = (empty: readonly MailSection[]): string =>
  `Nothing under: ${empty.map(({ title }) => title).join(', ')}.`;
const headOf = ({ title, count }: MailSection): string => (count === null ? title : `${title} (${count})`);
const nameOf = ({ name, place }: MailLine): string => (place === null ? name : `${name}, ${place}`);

const split = (sections: readonly MailSection[]) => ({
  full: sections.filter(({ lines }) => lines.length > 0),
  empty: sections.filter(({ lines }) => lines.length === 0),
});

function writeText({ title, sentence, sections, span, page, account }: Content): string {
  const { full, empty } = split(sections);
  const parts = [
    title,
    sentence,
    ...full.map((one) =>
      [
        headOf(one).toUpperCase(),
        ...one.lines.map((line) => `- ${toHeaderText(`${nameOf(line)}: ${line.text}`)}`),
        ...(one.more > 0 ? [`- ${moreWords(one.more)}`] : []),
      ].join('\n'),
    ),
    ...(empty.length > 0 ? [nothingWords(empty)] : []),
    page === null
      ? 'All of it, with links to the vehicles, is in Slipdrift under This week.'
      : `All of it, with links to the vehicles: ${page}`,
    span,
    account === null ? `${WHY} Untick it there to end it.` : `${WHY} Untick it there to end it: ${account}`,
  ];
  return `${parts.join('\n\n')}\n`;
}

function writeHtml({ title, sentence, sections, span, page, account, vehicleAt }: Content): string {
  const { full, empty } = split(sections);
  const small = 'font-size:14px';
  const link = (href: string | null, words: string) =>
    href === null ? escapeHtml(words) : `<a href="${escapeHtml(href)}">${escapeHtml(words)}</a>`;
  const item = ({ name, place, text, isVehicle }: MailLine) =>
    `<li style="margin:0 0 8px"><strong>${link(isVehicle ? vehicleAt(name) : null, name)}</strong>${place === null ? '' : `, ${escapeHtml(place)}`}<br>${escapeHtml(text)}</li>`;
  const body = [
    `<h1 style="font-size:20px;margin:0 0 12px">${escapeHtml(title)}</h1>`,
    `<p style="font-size:18px;margin:0 0 20px">${escapeHtml(sentence)}</p>`,
    ...full.map(
      (one) =>
        `<h2 style="font-size:16px;margin:24px 0 8px;border-top:1px solid #888888;padding-top:8px">${escapeHtml(headOf(one))}</h2>` +
        `<ul style="margin:0;padding:0;list-style:none">${one.lines.map(item).join('')}${one.more > 0 ? `<li>${moreWords(one.more)}</li>` : ''}</ul>`,
    ),
    ...(empty.length > 0 ? [`<p style="margin:24px 0 0">${escapeHtml(nothingWords(empty))}</p>`] : []),
    `<p style="margin:24px 0 0">${page === null ? 'All of it, with links to the vehicles, is in Slipdrift under This week.' : link(page, 'All of it in Slipdrift')}</p>`,
    `<p style="margin:24px 0 0;${small}">${escapeHtml(span)}<br>${escapeHtml(WHY)} ${link(account, 'Untick it there to end it.')}</p>`,
  ];
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><meta name="color-scheme" content="light dark"><title>${escapeHtml(title)}</title></head><body style="margin:0;padding:16px;font-family:sans-serif;font-size:16px;line-height:1.4"><div style="max-width:640px">${body.join('\n')}</div></body></html>`;
}
