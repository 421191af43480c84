namespace Broodtide.Domain.Journal;

/// <summary>A fact of a kind or version that this build does not know: kept as bytes, counted, never guessed at.</summary>
/// <param name="Kind">The stored name.</param>
/// <param name="Version">The version.</param>
public sealed record UnknownFact(string Kind, int Version) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>A fact of a known kind whose bytes do not hold what the kind demands.</summary>
/// <param name="Kind">The stored name.</param>
/// <param name="Reason">What is wrong with it.</param>
public sealed record UnreadableFact(string Kind, string Reason) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>A fact that a person had removed. That it was removed is all that is left.</summary>
/// <param name="Kind">The stored name.</param>
public sealed record ErasedFact(string Kind) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}
