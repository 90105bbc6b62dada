import { slugSchema } from '../../../engine/tree/index.ts';
import { useEditing } from '../page/edit-context.ts';
import { FormSection, ListButtons, TextField } from './fields.tsx';
import { namesProblem, slugList } from './slug-list.ts';

/** The settings that no bench of the tree has. */
export function SettingsForm() {
  const { tree, edit } = useEditing();
  const settings = Object.entries(tree.settings);
  const put = (label: string, next: readonly (readonly [string, string[]])[]): void =>
    edit(label, (now) => ({ ...now, settings: Object.fromEntries(next) }));
  const free = ['main-power', 'heat-call', ...Array.from({ length: settings.length + 1 }, (_, at) => `setting-${at + 1}`)].find(
    (name) => !Object.hasOwn(tree.settings, name),
  );
  return (
    <FormSection
      title="Settings that no bench has"
      action={
        <button
          type="button"
          className="button-plain"
          onClick={() => free !== undefined && put('Add a setting', [...settings, [free, ['on', 'off']]])}
        >
          Add a setting
        </button>
      }
    >
      {settings.map(([name, states], at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a setting keeps its place while its name is typed.
        <div key={at} className="field-row">
          <TextField
            label="Name"
            isCode
            value={name}
            commit={(text) => {
              const to = text.trim();
              if (!slugSchema.safeParse(to).success) return 'Small letters, digits and single hyphens.';
              if (to !== name && Object.hasOwn(tree.settings, to)) return 'There is a setting of this name.';
              put(
                'Rename a setting',
                settings.map((one) => (one[0] === name ? [to, states] : one)),
              );
              return undefined;
            }}
          />
          <TextField
            label="States, first as found"
            isCode
            value={states.join(', ')}
            commit={(text) => {
              const next = slugList(text);
              const problem = namesProblem(next, 2);
              if (problem !== undefined) return problem;
              put(
                'Change a setting',
                settings.map((one) => (one[0] === name ? [name, next] : one)),
              );
              return undefined;
            }}
          />
          <ListButtons
            of={name}
            at={at}
            count={1}
            move={() => undefined}
            remove={() =>
              put(
                'Remove a setting',
                settings.filter(([other]) => other !== name),
              )
            }
          />
        </div>
      ))}
    </FormSection>
  );
}
