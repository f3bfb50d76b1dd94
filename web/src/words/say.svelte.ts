import { FluentBundle, FluentResource } from '@fluent/bundle';
import en from '../../../crates/words/messages/en/page.ftl?raw';
import fr from '../../../crates/words/messages/fr/page.ftl?raw';

const bundles = new Map([['en', en], ['fr', fr]].map(([tag, text]) => [tag, bundle(tag ?? '', text ?? '')]));

function bundle(tag: string, text: string): FluentBundle {
  const out = new FluentBundle(tag, { useIsolating: false });
  for (const fault of out.addResource(new FluentResource(text))) throw fault;
  return out;
}

/** The language of the station: that of the first paint until the station is there. */
let language = $state('en');

/** Speaks the language of the station from now on; English for one the page has no words in. */
export function speak(tag: string) {
  language = bundles.has(tag) ? tag : 'en';
  document.documentElement.lang = language;
}

/** A message of the page, by code without its `page-`. Arguments are finished texts, or counts that choose a plural. */
export function say(code: string, args: Record<string, string | number> = {}): string {
  const words = bundles.get(language);
  const message = words?.getMessage(`page-${code}`);
  if (!words || !message?.value) throw new Error(`there is no message page-${code}`);
  return words.formatPattern(message.value, args);
}
