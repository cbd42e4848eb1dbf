import type { Column, Content } from 'pdfmake/interfaces.js';
import { section, soft } from './blocks.ts';
import type { PrintPhoto } from './print-request.ts';

const ACROSS = 3;
const GAP_PT = 10;
const MOST_HEIGHT_PT = 150;

/** By its first bytes, not by what it is said to be: JPEG (ITU-T T.81) and PNG (ISO/IEC 15948). */
function kindOf(bytes: Uint8Array): 'image/jpeg' | 'image/png' | null {
  const starts = (...signature: number[]) => signature.every((byte, at) => bytes[at] === byte);
  if (starts(0xff, 0xd8, 0xff)) return 'image/jpeg';
  return starts(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a) ? 'image/png' : null;
}

/** Photos side by side, small; those that cannot be printed are named, so that nobody misses them. */
export function writePhotos(photos: readonly PrintPhoto[], widthPt: number): Content {
  const read = photos.map((photo) => ({ ...photo, kind: kindOf(photo.bytes) }));
  const printed = read.filter(({ kind }) => kind !== null);
  const others = read.filter(({ kind }) => kind === null).map(({ name }) => name);
  const width = (widthPt - GAP_PT * (ACROSS - 1)) / ACROSS;
  const cells = printed.map(
    ({ bytes, kind, name }): Column => ({
      width,
      stack: [
        {
          image: `data:${kind};base64,${Buffer.from(bytes).toString('base64')}`,
          fit: [width, MOST_HEIGHT_PT],
        },
        soft(name),
      ],
    }),
  );
  const rows = Array.from(
    { length: Math.ceil(cells.length / ACROSS) },
    (_, row): Content => ({
      columns: cells.slice(row * ACROSS, (row + 1) * ACROSS),
      columnGap: GAP_PT,
      unbreakable: true,
      margin: [0, 0, 0, 8],
    }),
  );
  const left: Content[] =
    others.length === 0 ? [] : [{ text: `Kept with the packet, not printed here: ${others.join(', ')}` }];
  const [first, ...rest] = [...rows, ...left];
  return first === undefined ? [] : section('Photos', first, ...rest);
}
