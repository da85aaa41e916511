// The page's one state, changed only by events, told to whoever subscribes.

/**
 * @template S
 * @param {(state: S, event: any) => S} reduce
 * @param {S} initial
 */
export function createStore(reduce, initial) {
  let state = initial;
  const listeners = new Set();
  return {
    get state() {
      return state;
    },
    dispatch(event) {
      state = reduce(state, event);
      listeners.forEach((listener) => listener(state, event));
    },
    subscribe(listener) {
      listeners.add(listener);
    },
  };
}
