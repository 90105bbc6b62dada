export {
  FieldDb,
  type StoredCrewList,
  type StoredDraft,
  type StoredDrillRun,
  type StoredDrillTask,
  type StoredEdition,
  type StoredMembership,
  type StoredPhoto,
  type StoredSync,
  type StoredWalk,
} from '../../shared/device/field-db.ts';
