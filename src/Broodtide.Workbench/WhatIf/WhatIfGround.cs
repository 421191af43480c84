using Broodtide.Domain;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.WhatIf;

/// <summary>What a question starts from: a vessel as it is believed now, and how it goes on if the keeper goes on.</summary>
public sealed record WhatIfGround
{
    /// <summary>The longest that is looked ahead, days.</summary>
    public const int MostDays = 60;

    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>The instant at which the members stand.</summary>
    public required Instant Now { get; init; }

    /// <summary>
    /// The vessel as it goes on; what lies before the hour of <see cref="Members"/> is over, and it reaches
    /// <see cref="Days"/> further.
    /// </summary>
    public required VesselScene AsItIs { get; init; }

    /// <summary>What is believed to be in the water now.</summary>
    public required VesselEnsemble Members { get; init; }

    /// <summary>Days ahead, 1 to <see cref="MostDays"/>.</summary>
    public required int Days { get; init; }

    /// <summary>Fresh water lost to the air, L/d: what stands lower where nobody tops up.</summary>
    public double EvaporationLitresPerDay { get; init; }

    /// <summary>The larvae in it; none where none live there.</summary>
    public WhatIfLarvae? Larvae { get; init; }

    /// <summary>Most un-ionised ammonia as nitrogen that the larvae bear, mg/L; none where the species has no limit.</summary>
    public double? AmmoniaLimit { get; init; }

    /// <summary>Least oxygen, mg/L; none where the species has no limit.</summary>
    public double? OxygenLimit { get; init; }

    /// <summary>What is taken for "as it is", and what is not known.</summary>
    public IReadOnlyList<Remark> Assumed { get; init; } = [];

    internal int FromHour => Members.Hour;

    internal int EndHour => Members.Hour + (24 * Days);

    internal VesselHour HourNow => AsItIs.Hours[FromHour];
}

/// <summary>The larvae of a vessel as they were learned.</summary>
public sealed record WhatIfLarvae
{
    /// <summary>The run they belong to.</summary>
    public required LarvalRun Run { get; init; }

    /// <summary>What was learned of it.</summary>
    public required LarvalEstimate Learned { get; init; }

    /// <summary>Number of the vessel in the run.</summary>
    public required int Vessel { get; init; }

    /// <summary>What water does to larvae.</summary>
    public required LarvalConditions Conditions { get; init; }
}
