import { type Database, openDatabase, type RawClient } from '#db/client.ts';
import { attachEmbedded } from '#db/embedded/attach-embedded.ts';
import { type Program, startProgram } from '#tests/measure/start-program.ts';
import { readParent, readProcessorSeconds } from './processor-time.ts';

/** Set-up key of the servers that are measured. */
export const BENCH_KEY = 'key-of-the-bench';

export interface BenchServer {
  url: string;
  program: Program;
  /** the same PostgreSQL, past the program */
  db: Database;
  client: RawClient;
  databaseUrl: string;
  /** of program and PostgreSQL so far */
  processorSeconds(): number;
  stop(): Promise<void>;
}

/** Starts a server on this folder with a PostgreSQL of its own, and a way past it to the same PostgreSQL. */
export async function openServer(
  folder: string,
  environment: Record<string, string> = {},
): Promise<BenchServer> {
  const program = await startProgram(['serve'], folder, {
    PORT: '0',
    SLIPDRIFT_API_KEY: BENCH_KEY,
    ...environment,
  });
  try {
    const databaseUrl = await attachEmbedded(folder);
    if (databaseUrl === null) throw new Error(`no PostgreSQL runs on ${folder}`);
    const { db, client, close } = openDatabase(databaseUrl, { connections: 4 });
    const [backend] = await client<{ pid: number }[]>`select pg_backend_pid() as pid`;
    const postmaster = readParent(backend?.pid ?? 0);
    return {
      url: program.url,
      program,
      db,
      client,
      databaseUrl,
      processorSeconds: () => readProcessorSeconds([program.pid, postmaster]),
      async stop() {
        await close();
        await program.stop();
      },
    };
  } catch (error) {
    await program.stop();
    throw error;
  }
}
