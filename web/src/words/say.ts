import { FluentBundle, FluentResource } from '@fluent/bundle';
import en from '../../../crates/words/messages/en/page.ftl?raw';

const bundle = new FluentBundle('en', { useIsolating: false });
for (const fault of bundle.addResource(new FluentResource(en))) throw fault;

/** A message of the page, by code without its `page-`. Arguments are finished texts, or counts that choose a plural. */
export function say(code: string, args: Record<string, string | number> = {}): string {
  const message = bundle.getMessage(`page-${code}`);
  if (!message?.value) throw new Error(`there is no message page-${code}`);
  return bundle.formatPattern(message.value, args);
}
