// Runs server and console from their sources. The console's own server passes /api and /socket.io on to ours.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { ensureInstalled } from './install.mjs';
import { ROOT } from './places.mjs';
import { failWith, say } from './say.mjs';

/** `args` go to `serve`; keep its port at the default, the console expects it there. */
export async function develop(args) {
  let server;
  try {
    await ensureInstalled();
    const tsx = join(ROOT, 'node_modules/tsx/dist/cli.mjs');
    server = spawn(process.execPath, [tsx, 'watch', 'server/cli.ts', 'serve', ...args], {
      cwd: ROOT,
      stdio: 'inherit',
    });
    let client;
    const end = async () => {
      server.kill('SIGTERM');
      await client?.close();
      process.exit(0);
    };
    // From now on there is a process to take along, also while the console is still starting.
    process.on('SIGINT', end);
    process.on('SIGTERM', end);
    server.on('exit', end);
    const { createServer } = await import('vite');
    client = await createServer({ configFile: join(ROOT, 'client/vite.config.ts') });
    await client.listen();
    say(`console with hot reload: ${client.resolvedUrls?.local[0] ?? 'see above'}`);
  } catch (error) {
    server?.kill('SIGTERM');
    failWith(error);
  }
}
