import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { parseTempo } from '../../../analysis/plan/tempo.js';
import { setRequest, setRequests } from '../../../cli/pipeline/setRequest.js';

const PLAN = `exercises:
  - { exercise: single-arm-row, tempo: 4-0-X-1, reps: 8-10, load: 16kg, rest: 90 }
  - { exercise: towel-row, reps: 6 }
`;
const OWN = 'exercises:\n  - { id: towel-row, name: Towel row, like: single-arm-row }\n';

describe('setRequest', () => {
  let folder = '';
  let homeBefore: string | undefined;

  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'tempofilm-request-'));
    homeBefore = process.env['TEMPOFILM_HOME'];
    process.env['TEMPOFILM_HOME'] = folder;
  });

  afterEach(async () => {
    if (homeBefore === undefined) delete process.env['TEMPOFILM_HOME'];
    else process.env['TEMPOFILM_HOME'] = homeBefore;
    await rm(folder, { recursive: true });
  });

  async function file(name: string, text: string): Promise<string> {
    const path = join(folder, name);
    await writeFile(path, text);
    return path;
  }

  it('takes plan, load and rest from the plan file', async () => {
    await file('exercises.yaml', OWN);
    const plan = await file('plan.yaml', PLAN);
    const request = await setRequest({ exercise: 'single-arm-row', plan });
    expect(request.plan).toEqual({
      stages: [{ tempo: parseTempo('4-0-X-1'), reps: { min: 8, max: 10 } }],
      restSeconds: 90,
    });
    expect(request.load).toEqual({ value: 16, unit: 'kg' });
    expect(
      (await setRequest({ exercise: 'single-arm-row', plan, load: ['18kg'], rest: 60 })).load?.value,
    ).toBe(18);
  });

  it('gives several films the sets of their exercise in order, with the loads of their stages', async () => {
    const plan = await file(
      'weeks.yaml',
      `lifter: Kim
exercises:
  - { exercise: curl, sets: 2, tempo: 3010, load: 8kg }
  - { exercise: dip }
  - exercise: curl
    stages:
      - { tempo: 5-0-1-1, load: 6kg }
      - { tempo: 1-0-X-0 }
      - { tempo: 1-0-X-0, load: 4kg }
`,
    );
    const { requests, lifter } = await setRequests({ exercise: 'curl', plan }, 4);
    expect(lifter).toBe('Kim');
    expect(requests.map((one) => one.plan?.stages[0]?.tempo?.eccentric)).toEqual([3, 3, 5, 5]);
    const kilograms = (value: number) => ({ value, unit: 'kg' });
    expect(requests.map((one) => one.load)).toEqual([8, 8, 6, 6].map(kilograms));
    expect(requests.map((one) => one.stageLoads)).toEqual([
      null,
      null,
      [6, 6, 4].map(kilograms),
      [6, 6, 4].map(kilograms),
    ]);
    const said = await setRequests({ exercise: 'curl', plan, load: ['9kg', '7kg'] }, 1);
    expect(said.requests[0]).toMatchObject({ load: kilograms(9), stageLoads: [9, 7].map(kilograms) });
  });

  it('knows the exercises of the data folder and of a named file', async () => {
    const own = await file('mine.yaml', OWN);
    expect((await setRequest({ exercise: 'towel-row', exerciseFile: own })).exercise?.name).toBe('Towel row');
    await expect(setRequest({ exercise: 'towel-row' })).rejects.toThrow('There is no exercise "towel-row"');
    await file('exercises.yaml', OWN);
    expect((await setRequest({ exercise: 'towel-row' })).exercise?.drivingAngle).toBe('elbow-flexion');
  });

  it('takes the exercise from a plan that has only one', async () => {
    const plan = await file('plan.yaml', 'exercises: [{ exercise: dip, reps: 8 }]');
    expect((await setRequest({ plan })).exercise?.id).toBe('dip');
    const several = await file('several.yaml', 'exercises: [{ exercise: dip }, { exercise: squat }]');
    await expect(setRequest({ plan: several })).rejects.toThrow('Which exercise');
    expect((await setRequest({ tempo: '3-1-1-0' })).exercise).toBeNull();
  });

  it('refuses a plan that is missing, stated twice, or without the exercise', async () => {
    const plan = await file('plan.yaml', 'exercises: [{ exercise: dip }]');
    await expect(setRequest({ exercise: 'dip', plan: join(folder, 'none.yaml') })).rejects.toThrow(
      'There is no plan',
    );
    await expect(setRequest({ exercise: 'dip', plan: folder })).rejects.toThrow('is a folder');
    await expect(setRequest({ exercise: 'dip', plan, tempo: '4-0-1-1' })).rejects.toThrow('stated twice');
    await expect(setRequest({ exercise: 'curl', plan })).rejects.toThrow('has no curl');
    const broken = await file('broken.yaml', 'exercises: [{ exercise: dip, tempo: 4-0-y-1 }]');
    await expect(setRequest({ exercise: 'dip', plan: broken })).rejects.toThrow(
      'broken.yaml, line 1, column 37',
    );
    const film = await file('row.mp4', 'x'.repeat(1_000_001));
    await expect(setRequest({ exercise: 'dip', plan: film })).rejects.toThrow('too large');
  });
});
