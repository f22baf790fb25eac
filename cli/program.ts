import { Command, type CommandUnknownOpts } from '@commander-js/extra-typings';
import type { Program } from './commands/registration.js';
import { printable } from './printable.js';
import { PROGRAM_VERSION } from './version.js';

/** The file of each command, in the order of the help. */
const COMMANDS: Readonly<Record<string, () => Promise<(program: Program) => void>>> = {
  analyze: async () => (await import('./commands/analyze.js')).registerAnalyze,
  watch: async () => (await import('./commands/watch.js')).registerWatch,
  annotate: async () => (await import('./commands/annotate.js')).registerAnnotate,
  positions: async () => (await import('./commands/positions.js')).registerPositions,
  check: async () => (await import('./commands/check.js')).registerCheck,
  exercises: async () => (await import('./commands/exercises.js')).registerExercises,
  pace: async () => (await import('./commands/pace.js')).registerPace,
  history: async () => (await import('./commands/history.js')).registerHistory,
  compare: async () => (await import('./commands/compare.js')).registerCompare,
  session: async () => (await import('./commands/session.js')).registerSession,
  show: async () => (await import('./commands/show.js')).registerShow,
  list: async () => (await import('./commands/list.js')).registerList,
  edit: async () => (await import('./commands/edit.js')).registerEdit,
  amend: async () => (await import('./commands/amend.js')).registerAmend,
  delete: async () => (await import('./commands/delete.js')).registerDelete,
  export: async () => (await import('./commands/export.js')).registerExport,
  import: async () => (await import('./commands/import.js')).registerImport,
  backup: async () => (await import('./commands/backup.js')).registerBackup,
  'demo-history': async () => (await import('./commands/demoHistory.js')).registerDemoHistory,
  cache: async () => (await import('./commands/cache.js')).registerCache,
  doctor: async () => (await import('./commands/doctor.js')).registerDoctor,
  schema: async () => (await import('./commands/schema.js')).registerSchema,
};

/**
 * The whole command line, or no more than the command that is named: each command costs a file to load. Command files
 * import what they run only when they run, so that help is instant.
 *
 * @param named the first word of the command line; any that is no command gives them all.
 */
export async function buildProgram(named?: string): Promise<Command> {
  const program = new Command('tempofilm')
    .description(
      'Measures how long every lowering, hold and lift of a filmed set took, against your plan.\nEverything stays on this machine.',
    )
    .version(PROGRAM_VERSION)
    .exitOverride()
    .configureOutput({
      outputError: (text, write) => write(printable(text, process.argv).replace(/^error: /, 'tempofilm: ')),
    })
    .showHelpAfterError('  Add --help to see how the command is used.')
    .helpCommand('help [command]', 'show how a command is used');

  for (const register of await Promise.all(commandsFor(named).map((load) => load()))) register(program);

  program.addHelpText('after', EXAMPLES);
  for (const command of program.commands) acceptDebug(command);
  return program;
}

function commandsFor(named: string | undefined) {
  if (named === '--version' || named === '-V') return [];
  const only = named !== undefined && Object.hasOwn(COMMANDS, named) ? COMMANDS[named] : undefined;
  return only === undefined ? Object.values(COMMANDS) : [only];
}

function acceptDebug(command: CommandUnknownOpts): void {
  if (!command.options.some((option) => option.long === '--debug')) {
    command.option('--debug', 'show where in the program a fault arose');
  }
  for (const subcommand of command.commands) acceptDebug(subcommand);
}

const EXAMPLES = `
Examples:
  tempofilm analyze row.mp4 --exercise single-arm-row --tempo 4-0-1-1 --reps 8-10
  tempofilm analyze row.mp4 --exercise single-arm-row --page row.html --open
  tempofilm check row.mp4               can this film answer, before any long work?
  tempofilm exercises raise             which exercises are known, and how to film them
  tempofilm doctor                      is everything in place on this machine?`;
