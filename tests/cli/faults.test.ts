import { CommanderError } from '@commander-js/extra-typings';
import { describe, expect, it } from 'vitest';
import { reportFault } from '../../cli/faults.js';
import { Failure } from '../../core/failure.js';

describe('reportFault', () => {
  it('says what is wrong in one line and the remedy in another', () => {
    const fault = reportFault(new Failure('film', '"row.mp4" is\nempty.', 'Copy it again.'), false);
    expect(fault).toEqual({ exitCode: 3, text: 'tempofilm: "row.mp4" is empty.\n  Copy it again.\n' });
  });

  it('shows where a fault arose only with --debug', () => {
    const bug = new TypeError('x is undefined');
    expect(reportFault(bug, false)).toMatchObject({ exitCode: 1 });
    expect(reportFault(bug, false).text).not.toMatch(/faults\.test/);
    expect(reportFault(bug, true).text).toMatch(/faults\.test/);
  });

  it('names the cause of the cause with --debug', () => {
    const fault = new Failure('history', 'The history is damaged.', null, new Error('malformed page'));
    expect(reportFault(fault, true).text).toMatch(/malformed page/);
    expect(reportFault(fault, false).text).toBe('tempofilm: The history is damaged.\n');
  });

  it('ends with 2 for a wrong command line and 0 for asked-for help', () => {
    expect(reportFault(new CommanderError(1, 'commander.unknownOption', 'no'), false)).toEqual({
      exitCode: 2,
      text: '',
    });
    expect(
      reportFault(new CommanderError(0, 'commander.helpDisplayed', '(outputHelp)'), false).exitCode,
    ).toBe(0);
  });

  it('takes what the system does not allow for no fault of the program', () => {
    const refused = Object.assign(new Error("EACCES: permission denied, scandir '/closed'"), {
      code: 'EACCES',
      path: '/closed',
    });
    const fault = reportFault(refused, false);
    expect(fault.exitCode).toBe(2);
    expect(fault.text).toMatch(/^tempofilm: "\/closed" can't be used: permission denied\.\n/);
    expect(reportFault(Object.assign(new Error('x'), { code: 'ENOENT', path: 'y' }), false).exitCode).toBe(1);
  });

  it('copes with a thrown value that is no error', () => {
    expect(reportFault('stop', false).text).toMatch(/^tempofilm: unexpected fault: stop\n/);
  });
});
