using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Workbench.WhatIf;

/// <summary>One thing a keeper thinks of changing, from now on. Several may be tried together, one of each kind.</summary>
public abstract record WhatIfChange
{
    private WhatIfChange() { }

    /// <summary>Another salinity: lower by changing a share of the water for fresh, higher by dissolving salt.</summary>
    /// <param name="To">What it comes to.</param>
    /// <param name="OverDays">In equal steps, one a day, over so many days; at once for 0.</param>
    public sealed record SalinityTo(double To, int OverDays = 0) : WhatIfChange;

    /// <summary>Another temperature.</summary>
    /// <param name="To">What it comes to, degC.</param>
    /// <param name="OverDays">Evenly over so many days; at once for 0.</param>
    public sealed record TemperatureTo(double To, int OverDays = 0) : WhatIfChange;

    /// <summary>Another light.</summary>
    /// <param name="HoursPerDay">Hours a day it burns, round the middle of the lit hours as they are; 0 for none.</param>
    /// <param name="Micromoles">How bright, umol/(m2 s); as it is if left out.</param>
    public sealed record LightFor(double HoursPerDay, double? Micromoles = null) : WhatIfChange;

    /// <summary>More or less of the same food.</summary>
    /// <param name="Factor">How many times as much: 2 is twice, 0 none.</param>
    /// <param name="ForDays">For so many days; for good if left out.</param>
    public sealed record FeedTimes(double Factor, int? ForDays = null) : WhatIfChange;

    /// <summary>Dry food each day in place of what is fed.</summary>
    /// <param name="DryMilligrams">Dry mass a day, mg.</param>
    /// <param name="Composition">What it is made of.</param>
    public sealed record FoodEachDay(double DryMilligrams, FeedComposition Composition) : WhatIfChange;

    /// <summary>Algae each day in place of what is fed.</summary>
    /// <param name="CellsPerMillilitre">Cells for each millilitre of the vessel, a day.</param>
    public sealed record AlgaeEachDay(double CellsPerMillilitre) : WhatIfChange;

    /// <summary>More or fewer larvae of the same age.</summary>
    /// <param name="Factor">How many times as many.</param>
    public sealed record LarvaeTimes(double Factor) : WhatIfChange;

    /// <summary>A number of larvae, of the age of those that are there.</summary>
    /// <param name="Number">How many.</param>
    public sealed record LarvaeNumber(double Number) : WhatIfChange;

    /// <summary>Half of the water and of the larvae go into a second vessel like it; each gets half the food.</summary>
    public sealed record Split : WhatIfChange;

    /// <summary>Other air.</summary>
    /// <param name="Air">How much.</param>
    public sealed record AirSet(AirFlow Air) : WhatIfChange;

    /// <summary>Water changed with clean new water of the same salinity and warmth, in place of changes until now.</summary>
    /// <param name="Share">Share of the water, 0 to 1.</param>
    /// <param name="EveryDays">Every so many days, the first at once; once for 0.</param>
    public sealed record WaterChanged(double Share, int EveryDays = 0) : WhatIfChange;

    /// <summary>Nobody comes: no food, no top-up, no change of water; light and air go on by themselves.</summary>
    /// <param name="Days">For so many days.</param>
    public sealed record Skipped(int Days) : WhatIfChange;

    /// <summary>What has settled is drawn off.</summary>
    /// <param name="Share">Share of it, 0 to 1.</param>
    public sealed record Siphoned(double Share) : WhatIfChange;
}
