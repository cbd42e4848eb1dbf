import { Presets, SingleBar } from 'cli-progress';

export interface ProgressReporter {
  /** `share` from 0 to 1 */
  update(share: number, note: string): void;
  stop(): void;
}

/** A bar on a terminal, a line for every tenth anywhere else; on stderr, so that output can be piped. */
export function showProgress(title: string): ProgressReporter {
  return process.stderr.isTTY ? showBar(title) : showLines(title);
}

function showBar(title: string): ProgressReporter {
  const bar = new SingleBar(
    {
      format: `${title} {bar} {percentage} %  {note}`,
      hideCursor: true,
      stopOnComplete: false,
      etaBuffer: 50,
    },
    Presets.shades_classic,
  );
  bar.start(100, 0, { note: '' });
  return {
    update: (share, note) => bar.update(Math.floor(share * 100), { note }),
    stop: () => bar.stop(),
  };
}

function showLines(title: string): ProgressReporter {
  let tenths = -1;
  return {
    update(share, note) {
      const reached = Math.floor(share * 10);
      if (reached <= tenths) return;
      tenths = reached;
      console.error(`${title}: ${reached * 10} %, ${note}`);
    },
    stop() {},
  };
}
