import { useCallback } from 'react';
import { success } from '../../engine/result.ts';
import type { Person } from '../../shared/sync/wire/crew-wire.ts';
import type { JoinedHub } from './desk-hub.tsx';
import { type Asked, useAsked } from './use-asked.ts';

/** Everyone of the crew, whom a role may see: a tech sees themselves. */
export function usePeople({ client, me: { person } }: JoinedHub): Asked<readonly Person[]> {
  const { id, role } = person;
  const asked = useAsked<readonly Person[]>(
    // Every look at the hub brings the person anew; only another person, or another role, makes it another question.
    // biome-ignore lint/correctness/useExhaustiveDependencies: see above.
    useCallback(async () => {
      if (role === 'tech') return success([]);
      const answer = await client.people();
      return answer.ok ? success(answer.value.people) : answer;
    }, [client, id, role]),
  );
  return role === 'tech' ? { ...asked, value: [person] } : asked;
}

/** A person's name by id; an id that nobody has is someone. */
export const nameIn =
  (people: readonly Person[]) =>
  (id: string): string =>
    people.find((person) => person.id === id)?.name ?? 'someone';
