/** The service says with it, on all that it gives, that it has a hub: a question that nobody answers is an error in the browser's console. */
export const HUB_HEADER = 'ohmward-hub';

/** Whether the service that gave this answer has a hub. One from before there was a hub says nothing. */
export const hasHub = (answer: Response): boolean => answer.headers.get(HUB_HEADER) === 'yes';
