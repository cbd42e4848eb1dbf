import type { TestProject } from 'vitest/node';
import { openDatabase } from '#db/client.ts';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { startEmbedded } from '#db/embedded/start-embedded.ts';
import { migrateDatabase } from '#db/migrate.ts';
import { makeTemporaryFolder } from './temporary-folder.ts';
import { withDatabase } from './with-database.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** of a database that tests copy and never write to */
    templateUrl: string;
  }
}

interface Running {
  templateUrl: string;
  users: number;
  stop(): Promise<void>;
}

/** Vitest sets up once a project, all in one process: they share one server. */
const shared = globalThis as { slipdriftTestServer?: Promise<Running> | undefined };

/** One PostgreSQL for the run: that of `TEST_DATABASE_URL`, or an embedded one in a folder that goes afterwards. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  shared.slipdriftTestServer ??= start();
  const running = await shared.slipdriftTestServer;
  running.users += 1;
  project.provide('templateUrl', running.templateUrl);
  return async () => {
    running.users -= 1;
    if (running.users > 0) return;
    shared.slipdriftTestServer = undefined;
    await running.stop();
  };
}

async function start(): Promise<Running> {
  const given = process.env.TEST_DATABASE_URL;
  const server = given === undefined ? await startTemporary() : { url: given, stop: async () => {} };
  const name = `slipdrift_test_template_${process.pid}`;
  const templateUrl = withDatabase(server.url, name);
  const { client: admin, close } = openDatabase(withDatabase(server.url, 'postgres'), { connections: 1 });
  await admin.unsafe(`drop database if exists ${name}`);
  await admin.unsafe(`create database ${name}`);
  await migrateDatabase(templateUrl);
  return {
    templateUrl,
    users: 0,
    async stop() {
      await admin.unsafe(`drop database if exists ${name} with (force)`);
      await close();
      await server.stop();
    },
  };
}

async function startTemporary(): Promise<{ url: string; stop(): Promise<void> }> {
  const folder = makeTemporaryFolder();
  const server = await startEmbedded({ folder, durable: false });
  return {
    url: server.url,
    async stop() {
      await server.stop();
      removeStorage(folder);
    },
  };
}
