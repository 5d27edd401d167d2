// Runs server and console from their sources. The console's own server passes /api and /socket.io on to ours.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { ensureInstalled } from './install.mjs';
import { ROOT } from './places.mjs';
import { failWith, say } from './say.mjs';

/** `args` go to `serve`; keep its port at the default, the console expects it there. */
export async function develop(args) {
  try {
    await ensureInstalled();
    const tsx = join(ROOT, 'node_modules/tsx/dist/cli.mjs');
    const server = spawn(process.execPath, [tsx, 'watch', 'server/cli.ts', 'serve', ...args], {
      cwd: ROOT,
      stdio: 'inherit',
    });
    const { createServer } = await import('vite');
    const client = await createServer({ configFile: join(ROOT, 'client/vite.config.ts') });
    await client.listen();
    say(`console with hot reload: ${client.resolvedUrls?.local[0] ?? 'see above'}`);
    const end = async () => {
      server.kill('SIGTERM');
      await client.close();
      process.exit(0);
    };
    process.on('SIGINT', end);
    process.on('SIGTERM', end);
    server.on('exit', end);
  } catch (error) {
    failWith(error);
  }
}
