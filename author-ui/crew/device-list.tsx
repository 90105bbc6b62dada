import { useCallback, useState } from 'react';
import { hubProblemWords } from '../../shared/sync/hub-words.ts';
import type { Device, FreshCode, Person } from '../../shared/sync/wire/crew-wire.ts';
import { dayWords, deviceKindWords, momentWords } from './crew-page-words.ts';
import type { JoinedHub } from './desk-hub.tsx';
import { FreshCodes } from './fresh-codes.tsx';
import { AskedTrouble, HubTrouble } from './hub-trouble.tsx';
import { SureButton } from './sure-button.tsx';
import { useAsked, useDeed } from './use-asked.ts';

type DeviceListProps = { readonly hub: JoinedHub; readonly people: readonly Person[] };

/** One's own devices, and for an owner anyone's: to stop one that was lost, and to add another of one's own. */
export function DeviceList({ hub, people }: DeviceListProps) {
  const { client, me } = hub;
  const [whose, setWhose] = useState(me.person.id);
  const isMine = whose === me.person.id;
  const devices = useAsked(useCallback(() => client.devices(whose), [client, whose]));
  const adding = useDeed();
  const [code, setCode] = useState<FreshCode>();
  const list = devices.value?.devices ?? [];
  return (
    <section aria-labelledby="devices-title">
      <h2 id="devices-title">Devices</h2>
      {me.person.role === 'owner' && people.length > 1 && (
        <label className="crew-field crew-whose">
          Whose
          <select value={whose} onChange={(event) => setWhose(event.target.value)}>
            {people.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
                {id === me.person.id ? ' (you)' : ''}
              </option>
            ))}
          </select>
        </label>
      )}
      <AskedTrouble asked={devices} what="the devices" />
      {list.length > 0 && (
        <table className="crew-table">
          <thead>
            <tr>
              <th scope="col">Device</th>
              <th scope="col">Kind</th>
              <th scope="col">Last heard of</th>
              <td>
                <span className="unseen">Stop</span>
              </td>
            </tr>
          </thead>
          <tbody>
            {list.map((device) => (
              <DeviceRow key={device.id} hub={hub} device={device} changed={devices.again} />
            ))}
          </tbody>
        </table>
      )}
      {devices.state === 'ready' && list.length === 0 && <p>No device is in the crew under this name.</p>}
      {isMine && (
        <>
          <button
            type="button"
            className="button button-quiet"
            disabled={adding.busy}
            onClick={() => void adding.run(() => client.addDevice()).then((made) => made && setCode(made))}
          >
            Add another device of mine
          </button>
          {adding.problem && <HubTrouble {...hubProblemWords(adding.problem)} />}
          {code && (
            <FreshCodes
              codes={[code]}
              title="A code for another device of yours"
              about={`Good once, until ${momentWords(code.expires)}. The device is in the crew as ${me.person.name}.`}
              onClose={() => {
                setCode(undefined);
                devices.again();
              }}
            />
          )}
        </>
      )}
    </section>
  );
}

function DeviceRow({ hub, device, changed }: { readonly hub: JoinedHub; readonly device: Device; readonly changed: () => void }) {
  const deed = useDeed();
  const { id, label, kind, since, seen, stopped } = device;
  const isThis = id === hub.me.device.id;
  return (
    <tr className={stopped === undefined ? undefined : 'crew-gone'}>
      <th scope="row">
        {label}
        {isThis && ' (this computer)'}
      </th>
      <td>{deviceKindWords(kind)}</td>
      <td>
        {momentWords(seen)}
        <span className="crew-hint">, added {dayWords(since)}</span>
      </td>
      <td>
        {stopped !== undefined && <strong>stopped {dayWords(stopped)}</strong>}
        {stopped === undefined && !isThis && (
          <SureButton
            text="Stop…"
            label={`Stop ${label}`}
            ask={`“${label}” gets and sends nothing any more, as for a phone that was lost. What it has not sent is sent only if it joins again.`}
            sure="Stop it"
            keep="Leave as it is"
            busy={deed.busy}
            onSure={async () => {
              const done = await deed.run(() => hub.client.stopDevice(id));
              if (done) changed();
              return done !== undefined;
            }}
          />
        )}
        {deed.problem && <HubTrouble {...hubProblemWords(deed.problem)} />}
      </td>
    </tr>
  );
}
