package lombok;

/** Stands in for the banned library, so that its check can be seen to bite. */
public final class Planted {}
