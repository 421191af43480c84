using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>
/// When something happened, as far as it is known: some instant from <see cref="Earliest"/> to
/// <see cref="Latest"/>, both inclusive. Equal ends say "then"; wide ends say "some time since last night".
/// </summary>
public readonly record struct Happened
{
    private Happened(Instant earliest, Instant latest)
    {
        Earliest = earliest;
        Latest = latest;
    }

    /// <summary>Not before this instant.</summary>
    public Instant Earliest { get; }

    /// <summary>Not after this instant.</summary>
    public Instant Latest { get; }

    /// <summary>The middle of the interval: the best single instant when one is needed.</summary>
    public Instant Middle => Earliest + ((Latest - Earliest) / 2);

    /// <summary>How wide the doubt is.</summary>
    public Duration Doubt => Latest - Earliest;

    /// <summary>At one known instant.</summary>
    public static Happened At(Instant instant) => new(instant, instant);

    /// <summary>Some time between two instants.</summary>
    /// <exception cref="ArgumentException">The latest lies before the earliest.</exception>
    public static Happened Between(Instant earliest, Instant latest) =>
        latest >= earliest
            ? new(earliest, latest)
            : throw new ArgumentException("The latest instant lies before the earliest.", nameof(latest));
}
