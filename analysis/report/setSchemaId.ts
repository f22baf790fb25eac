/** Names the form of the set report. Apart from its schema, so that a report is made without loading that. */
export const SET_SCHEMA_ID = 'tempofilm.set/1';
