namespace Broodtide.Looking;

/// <summary>Where something truly lies, and how near a mark must be to be called right, all in pixels.</summary>
public readonly record struct TrueSpot(double X, double Y, double Reach);

/// <summary>One frame with what is in it.</summary>
public sealed record Frame(string Path, IReadOnlyList<TrueSpot> Spots);

/// <summary>One thing counted: a single photo, or the frames of a burst.</summary>
public sealed record Scene(string Name, int Count, IReadOnlyList<Frame> Frames);
