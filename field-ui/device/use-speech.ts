import { useCallback, useEffect, useRef, useState } from 'react';

export type Speech = { readonly speaking: boolean; say(text: string): void; stop(): void };

/** Reading aloud. Undefined where the device has no voice, so that no button is shown that could not speak. */
export function useSpeech(): Speech | undefined {
  const synthesis = 'speechSynthesis' in window ? window.speechSynthesis : undefined;
  const [voices, setVoices] = useState(() => synthesis?.getVoices().length ?? 0);
  const [speaking, setSpeaking] = useState(false);
  const saying = useRef<SpeechSynthesisUtterance>(undefined);

  useEffect(() => {
    if (!synthesis) return;
    const count = (): void => setVoices(synthesis.getVoices().length);
    count();
    // Some browsers load their voices after the page.
    synthesis.addEventListener?.('voiceschanged', count);
    return () => {
      synthesis.removeEventListener?.('voiceschanged', count);
      synthesis.cancel();
    };
  }, [synthesis]);

  const stop = useCallback(() => {
    synthesis?.cancel();
    setSpeaking(false);
  }, [synthesis]);

  const say = useCallback(
    (text: string) => {
      if (!synthesis) return;
      synthesis.cancel();
      const utterance = new SpeechSynthesisUtterance(text);
      utterance.lang = 'en';
      // One that was cancelled ends late, when the next may be speaking.
      const ended = (): void => {
        if (saying.current === utterance) setSpeaking(false);
      };
      utterance.onend = ended;
      utterance.onerror = ended;
      saying.current = utterance;
      setSpeaking(true);
      synthesis.speak(utterance);
    },
    [synthesis],
  );

  return synthesis && voices > 0 ? { speaking, say, stop } : undefined;
}
