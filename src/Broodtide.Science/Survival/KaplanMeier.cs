namespace Broodtide.Science.Survival;

/// <summary>
/// Share still alive from lives followed one by one without gaps, such as isolated larvae in wells
/// (Kaplan and Meier 1958, J. Am. Stat. Assoc. 53:457). Of those that leave alive at the moment of a death, all
/// count as under risk. For larvae seen only at visits use <see cref="Turnbull"/>.
/// </summary>
public static class KaplanMeier
{
    /// <summary>The survival curve of lives.</summary>
    /// <param name="lifetimes">One or more lives, in any order.</param>
    /// <exception cref="ArgumentException">No life at all.</exception>
    public static SurvivalCurve Of(ReadOnlySpan<Lifetime> lifetimes)
    {
        if (lifetimes.IsEmpty)
        {
            throw new ArgumentException("A survival curve needs at least one life.", nameof(lifetimes));
        }

        var ordered = lifetimes.ToArray();
        Array.Sort(ordered, (left, right) => left.Time.CompareTo(right.Time));
        var steps = new List<SurvivalStep>();
        var survival = 1.0;
        var greenwood = 0.0;
        for (var i = 0; i < ordered.Length; )
        {
            var time = ordered[i].Time;
            var atRisk = ordered.Length - i;
            var deaths = 0;
            for (; i < ordered.Length && ordered[i].Time.Equals(time); i++)
            {
                deaths += ordered[i].Died ? 1 : 0;
            }

            if (deaths > 0)
            {
                survival *= (double)(atRisk - deaths) / atRisk;
                greenwood += deaths < atRisk ? (double)deaths / atRisk / (atRisk - deaths) : 0;
                steps.Add(new(time, atRisk, deaths, survival, greenwood));
            }
        }

        return new(ordered.Length, ordered[^1].Time, steps);
    }
}
