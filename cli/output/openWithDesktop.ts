import { spawn } from 'node:child_process';
import { resolve } from 'node:path';

const SOON_MILLISECONDS = 1500;

/** Opens a file with whatever the desktop opens it with; says so where there is no desktop to ask. */
export async function openWithDesktop(file: string): Promise<void> {
  const [program, ...parameters] = openerFor(process.platform);
  const opened = await new Promise<boolean>((settle) => {
    const child = spawn(program, [...parameters, resolve(file)], { detached: true, stdio: 'ignore' });
    child.once('error', () => settle(false));
    child.once('spawn', () => {
      child.unref();
      // An opener that found nothing to open it with ends soon; one that became the browser stays.
      setTimeout(() => settle(true), SOON_MILLISECONDS);
    });
    child.once('exit', (code) => settle(code === 0));
  });
  if (!opened) process.stderr.write(`Open ${file} in a browser: there is no desktop here that could.\n`);
}

function openerFor(platform: NodeJS.Platform): readonly [string, ...string[]] {
  if (platform === 'darwin') return ['open'];
  if (platform === 'win32') return ['rundll32', 'url.dll,FileProtocolHandler'];
  return ['xdg-open'];
}
