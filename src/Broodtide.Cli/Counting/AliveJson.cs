using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Population;

namespace Broodtide.Cli.Counting;

/// <summary>Larvae in one vessel or of one cohort.</summary>
internal sealed record AlivePartJson(string Name, PointsJson AliveLarvae);

/// <summary>Larvae in one stage.</summary>
internal sealed record AliveStageJson(string Stage, PointsJson AliveLarvae, double Share);

/// <summary>An uncertain instant: 5, 50 and 95 % points.</summary>
internal sealed record InstantsJson(string Early, string Middle, string Late)
{
    public static InstantsJson Of(InstantRange range) =>
        new(Saying.Iso(range.Early), Saying.Iso(range.Middle), Saying.Iso(range.Late));
}

/// <summary>When larvae settle.</summary>
internal sealed record SettlementJson(
    InstantsJson First,
    InstantsJson OneInTen,
    InstantsJson Half,
    InstantsJson NineInTen
);

/// <summary>One observation and what it would narrow.</summary>
internal sealed record HelpfulJson(
    string Look,
    string Narrows,
    double AliveNarrowedShare,
    double SettlementNarrowedShare
);

/// <summary>One point of the number alive in time.</summary>
internal sealed record AlivePointJson(string At, PointsJson AliveLarvae, IReadOnlyList<double> StageShares);

/// <summary>How much one entry changed the answer.</summary>
internal sealed record EntryWeightJson(
    string Entry,
    string Happened,
    string Words,
    PointsJson AliveWithoutLarvae,
    double AliveMovedByLarvae,
    InstantsJson HalfSettledWithout,
    double HalfSettledMovedByDays,
    double Weight
);

/// <summary>One population.</summary>
internal sealed record PopulationJson(
    IReadOnlyList<string> Broods,
    string At,
    PointsJson AliveLarvae,
    PointsJson SurvivedShare,
    IReadOnlyList<AlivePartJson> Vessels,
    IReadOnlyList<AlivePartJson> Cohorts,
    IReadOnlyList<AliveStageJson> Stages,
    SettlementJson Settlement,
    PointsJson JuvenilesExpected,
    string JuvenilesOn,
    bool Rough,
    IReadOnlyList<HelpfulJson> WhatHelps,
    string? WhatHelpsMost,
    IReadOnlyList<RemarkJson> Conflicts,
    IReadOnlyList<RemarkJson> Remarks,
    IReadOnlyList<AlivePointJson> Track,
    IReadOnlyList<EntryWeightJson>? Why
);

/// <summary>How many larvae are alive.</summary>
internal sealed record AliveAnswer(string Now, string At, IReadOnlyList<PopulationJson> Populations);
