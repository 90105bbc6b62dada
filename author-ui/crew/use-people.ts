import { useCallback } from 'react';
import { success } from '../../engine/result.ts';
import type { Person } from '../../shared/sync/wire/crew-wire.ts';
import type { JoinedHub } from './desk-hub.tsx';
import { type Asked, useAsked } from './use-asked.ts';

/** Everyone of the crew, whom a role may see: a tech sees themselves. */
export function usePeople({ client, me: { person } }: JoinedHub): Asked<readonly Person[]> {
  return useAsked<readonly Person[]>(
    useCallback(async () => {
      if (person.role === 'tech') return success([person]);
      const answer = await client.people();
      return answer.ok ? success(answer.value.people) : answer;
    }, [client, person]),
  );
}

/** A person's name by id; an id that nobody has is someone. */
export const nameIn =
  (people: readonly Person[]) =>
  (id: string): string =>
    people.find((person) => person.id === id)?.name ?? 'someone';
