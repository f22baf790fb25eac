import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { buildProgram } from '../../cli/program.js';
import packageFile from '../../package.json' with { type: 'json' };
import { PROJECT, runCommand } from './command.js';
import { readmeCommands } from './readmeCommands.js';
import { runInProcess } from './runInProcess.js';
import { keepSimulatedTrack } from './simulatedDemo.js';
import { homeWithSharedTracks } from './temporaryHome.js';

vi.setConfig({ testTimeout: 240_000 });
vi.mock('../../core/pose/workerPool.js', () => import('./poolInProcess.js'));

const home = homeWithSharedTracks();
symlinkSync(join(PROJECT, 'fixtures'), join(home, 'fixtures'));

// The part of a film that one command asks for: measured parts are the matter of other tests.
beforeAll(() => keepSimulatedTrack('goblet-squats', home, { fromSeconds: 0, toSeconds: 15 }));

const commands = readmeCommands();
const own = commands.filter(([program, name]) => program === 'npx' && name === 'tempofilm');
const scripts = commands.filter(([program]) => program === 'npm');

describe('the commands of the README', () => {
  it('are all either of the program or of npm', () => {
    expect(own.length + scripts.length).toBe(commands.length);
    expect(own.length).toBeGreaterThan(20);
  });

  // In order: later ones look at the sets that earlier ones kept.
  it.each(own.map((words, index) => [words.join(' '), words.slice(2), index] as const))(
    '%s',
    async (_line, parameters, index) => {
      // The first two as a user's shell starts them; a process for each of the others would show nothing more.
      const outcome = await (index < 2 ? runCommand : runInProcess)(parameters, { home });
      expect(outcome).toMatchObject({ code: 0 });
      expect(outcome.errors).not.toMatch(/^tempofilm: /m);
    },
  );

  it('have one for every command there is', async () => {
    const shown = new Set(own.map(([, , command]) => command));
    expect(
      (await buildProgram()).commands.map((command) => command.name()).filter((name) => !shown.has(name)),
    ).toEqual([]);
  });

  it('of npm name scripts that there are', () => {
    for (const words of scripts) {
      const script = words.includes('run') ? words.at(-1)! : words.at(-1) === 'test' ? 'test' : 'prepare';
      expect(Object.keys(packageFile.scripts)).toContain(script);
    }
  });
});
