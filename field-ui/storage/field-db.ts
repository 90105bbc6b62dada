export {
  FieldDb,
  type StoredCrewList,
  type StoredDraft,
  type StoredEdition,
  type StoredMembership,
  type StoredPhoto,
  type StoredSync,
  type StoredWalk,
} from '../../shared/device/field-db.ts';
