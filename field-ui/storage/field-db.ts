export { FieldDb, type StoredDraft, type StoredEdition, type StoredPhoto, type StoredWalk } from '../../shared/device/field-db.ts';
