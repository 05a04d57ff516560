import { commands, type ExtensionContext, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { SHOW_CANDIDATES } from '../server/protocol/commands.ts';
import { AlignOnLeave } from './align-on-leave.ts';
import { registerHandOut } from './hand-out/hand-out-commands.ts';
import { pasteText } from './paste-text.ts';
import { SheetPanels } from './preview/sheet-panels.ts';

/** What the extension hands to those who need the service to be up: our own tests, and other extensions. */
export interface Handspan {
  /** Settles once the service has started, or could not. */
  readonly started: Promise<void>;
}

/**
 * Registers everything and returns at once; the service starts meanwhile, and who needs it awaits it.
 * No scheme is named for the documents, so that lessons that are untitled or lie in virtual folders are served too.
 */
export function register(
  context: ExtensionContext,
  createClient: (options: LanguageClientOptions) => BaseLanguageClient,
): Handspan {
  const client = createClient({
    documentSelector: [{ language: 'handspan' }],
    // What the service must know from the start; what changes later is sent by the client library.
    initializationOptions: () => ({
      chordNames: workspace.getConfiguration('handspan').get('chordNames'),
      showsSheets: true,
      // Where what writes files is fetched from, in a host that has no disk.
      assets: Uri.joinPath(context.extensionUri, 'dist').toString(true),
    }),
    synchronize: { configurationSection: 'handspan' },
  });
  const started = client.start().catch(async (reason: unknown) => {
    await window.showErrorMessage(`Handspan’s lesson service did not start: ${String(reason)}`);
  });
  const panels = new SheetPanels(context.extensionUri, client, started);
  context.subscriptions.push(
    panels,
    new AlignOnLeave(client),
    registerHandOut(client, started, context),
    commands.registerCommand('handspan.showSheet', () => panels.showForActiveEditor()),
    commands.registerCommand(SHOW_CANDIDATES, (place: unknown) => panels.showCandidates(place)),
    commands.registerCommand('handspan.playFromCursor', () => panels.playFromCursor()),
    commands.registerCommand('handspan.stopPlaying', () => panels.stopPlaying()),
    commands.registerCommand('handspan.pasteText', () => pasteText(client)),
    commands.registerCommand('handspan.restart', () => restart(client)),
    // The editor gives an extension little time to end in; a service that is cut off loses nothing.
    { dispose: () => void client.dispose() },
  );
  return { started };
}

/** Starts a fresh service: open lessons and sheets are handed to it, so nothing is lost. */
async function restart(client: BaseLanguageClient): Promise<void> {
  if (client.isRunning()) await client.stop();
  await client.start();
}
