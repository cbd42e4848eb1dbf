import { startEmbedded } from '#db/embedded/start-embedded.ts';

const s = await startEmbedded({ folder: '/tmp/w/data', durable: true });
console.log(s.url);
process.on('SIGTERM', async () => {
  await s.stop();
  process.exit(0);
});
setInterval(() => {}, 1e6);
