import { expect, test, vi } from 'vitest';

const said: string[] = [];
const written: string[] = [];
vi.mock('vscode', () => ({
  workspace: {
    isTrusted: false,
    textDocuments: [],
    fs: new Proxy({}, { get: (_, name) => async () => void written.push(String(name)) }),
  },
  window: { showWarningMessage: async (message: string) => void said.push(message) },
  commands: {},
}));

test('G-8: in a folder that is not trusted nothing is written, and that is said', async () => {
  const { handOutAsWished } = await import('../../client/hand-out/hand-out.ts');
  const asked: string[] = [];
  const desk = new Proxy({}, { get: (_, name) => async () => void asked.push(String(name)) });
  const result = await handOutAsWished(desk as never, { lessons: ['a'], choice: {}, to: 'x' } as never, {} as never);
  expect(result).toMatchObject({ written: [], finished: false });
  expect(result.notes[0]).toContain('not trusted');
  expect(said).toEqual(result.notes);
  expect({ asked, written }).toEqual({ asked: [], written: [] });
});
