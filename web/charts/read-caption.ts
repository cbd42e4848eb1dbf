export interface Caption {
  title: string;
  /** how the chart is read, a paragraph each */
  reading: string[];
}

/** What stands over a chart on the screen, as text; where it has no heading, what the label begins with. Controls are no part of it. */
export function readCaption(figure: HTMLElement | null, label: string): Caption {
  const [first = label] = label.split(/[.:] /);
  const caption = figure?.querySelector('figcaption')?.cloneNode(true);
  if (!(caption instanceof HTMLElement)) return { title: first, reading: [] };
  for (const control of caption.querySelectorAll('a, button, details, [data-tools]')) control.remove();
  const textOf = (element: Element | null): string =>
    (element?.textContent ?? '').replaceAll(/\s+/g, ' ').trim();
  return {
    title: textOf(caption.querySelector('h1, h2, h3, h4, h5, h6')) || first,
    reading: [...caption.querySelectorAll('p')].map(textOf).filter((text) => text !== ''),
  };
}

/** The screen's name as its title in the browser has it. */
export const readScreenName = (): string => document.title.split(' · ')[0] ?? '';

const days = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' });

interface Source {
  /** of what the picture is, in words; else the screen's address says it */
  selection: string | undefined;
  /** day of the newest data in it, in words */
  dataTo: string | undefined;
}

/** Where a picture is from, of what day, and of what choice. */
export function saySource({ selection, dataTo }: Source, at: Date): string[] {
  const { host, pathname, search } = window.location;
  const saved = days.format(at);
  const day = dataTo === undefined ? saved : `data to ${dataTo}, saved ${saved}`;
  return [
    ['Slipdrift', readScreenName(), day].filter((part) => part !== '').join(', '),
    selection ?? decodeAddress(host + pathname + search),
  ];
}

function decodeAddress(address: string): string {
  try {
    return decodeURIComponent(address);
  } catch {
    return address;
  }
}
