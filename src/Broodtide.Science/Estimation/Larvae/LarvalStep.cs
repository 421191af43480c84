namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What a step does, in the order in which steps of one instant are taken.</summary>
internal enum StepKind
{
    Arrive,
    MoveShare,
    MoveNumber,
    Count,
    Stage,
    SettledSeen,
    DeadFound,
    RemoveNumber,
    RemoveAll,
    Tell,
}

/// <summary>One step of a run: everything up to its day has happened, then it happens.</summary>
internal sealed record LarvalStep(StepKind Kind, double Day)
{
    internal int Tag { get; init; }

    internal ulong Cells { get; init; }

    internal int From { get; init; }

    internal int To { get; init; }

    internal double Number { get; init; }

    internal double ErrorCv { get; init; }

    internal double SharedErrorCv { get; init; }

    internal double Share { get; init; }

    internal bool Settled { get; init; }

    internal CountTerm? Term { get; init; }

    /// <summary>Whether it may only raise the estimate: a look past the attraction to light.</summary>
    internal bool OnlyRaises { get; init; }

    internal int[] Tallies { get; init; } = [];

    /// <summary>Number of the telling, from 0.</summary>
    internal int Telling { get; init; }

    /// <summary>Arrivals bring their age and strain.</summary>
    internal double Age { get; init; }

    internal double Strain { get; init; } = 1;
}
