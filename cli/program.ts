import { Command, type CommandUnknownOpts } from '@commander-js/extra-typings';
import { registerAmend } from './commands/amend.js';
import { registerAnalyze } from './commands/analyze.js';
import { registerAnnotate } from './commands/annotate.js';
import { registerBackup } from './commands/backup.js';
import { registerCache } from './commands/cache.js';
import { registerCheck } from './commands/check.js';
import { registerCompare } from './commands/compare.js';
import { registerDelete } from './commands/delete.js';
import { registerDemoHistory } from './commands/demoHistory.js';
import { registerDoctor } from './commands/doctor.js';
import { registerEdit } from './commands/edit.js';
import { registerExercises } from './commands/exercises.js';
import { registerExport } from './commands/export.js';
import { registerHistory } from './commands/history.js';
import { registerImport } from './commands/import.js';
import { registerList } from './commands/list.js';
import { registerPace } from './commands/pace.js';
import { registerPositions } from './commands/positions.js';
import { registerSchema } from './commands/schema.js';
import { registerSession } from './commands/session.js';
import { registerShow } from './commands/show.js';
import { registerWatch } from './commands/watch.js';
import { printable } from './printable.js';
import { PROGRAM_VERSION } from './version.js';

/** The whole command line. Command files import what they run only when they run, so that help is instant. */
export function buildProgram(): Command {
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

  registerAnalyze(program);
  registerWatch(program);
  registerAnnotate(program);
  registerPositions(program);
  registerCheck(program);
  registerExercises(program);
  registerPace(program);
  registerHistory(program);
  registerCompare(program);
  registerSession(program);
  registerShow(program);
  registerList(program);
  registerEdit(program);
  registerAmend(program);
  registerDelete(program);
  registerExport(program);
  registerImport(program);
  registerBackup(program);
  registerDemoHistory(program);
  registerCache(program);
  registerDoctor(program);
  registerSchema(program);

  program.addHelpText('after', EXAMPLES);
  for (const command of program.commands) acceptDebug(command);
  return program;
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
