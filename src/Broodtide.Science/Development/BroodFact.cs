using Broodtide.Units;

namespace Broodtide.Science.Development;

/// <summary>
/// One thing seen of a brood. Days are counted from an origin of the caller's choosing, the same for everything
/// that is said of one brood.
/// </summary>
/// <param name="Day">When it was seen, days; -100 000 to 100 000.</param>
public abstract record BroodFact(double Day)
{
    /// <summary>Order among facts of the same day, so that the order of arrival never matters.</summary>
    internal abstract int Rank { get; }

    /// <summary>The female carried no eggs.</summary>
    /// <param name="Day">When, days.</param>
    public sealed record SeenEmpty(double Day) : BroodFact(Day)
    {
        internal override int Rank => 0;
    }

    /// <summary>The female carried eggs; the first such look bounds the day of spawning.</summary>
    /// <param name="Day">When, days.</param>
    public sealed record SeenBerried(double Day) : BroodFact(Day)
    {
        internal override int Rank => 1;
    }

    /// <summary>The eggs were looked at closely enough to say something of eyes or colour.</summary>
    /// <param name="Day">When, days.</param>
    /// <param name="Eyed">Whether eyes were seen as dots; none if nothing was said.</param>
    /// <param name="Pale">Whether the eggs were pale; none if nothing was said.</param>
    public sealed record EggsLookedAt(double Day, bool? Eyed, bool? Pale) : BroodFact(Day)
    {
        // Each of the nine combinations has its own place.
        internal override int Rank => 10 + (3 * Place(Eyed)) + Place(Pale);

        private static int Place(bool? said) =>
            said switch
            {
                null => 0,
                false => 1,
                true => 2,
            };
    }

    /// <summary>A new saddle (ripening ovary) was seen while eggs were carried.</summary>
    /// <param name="Day">When, days.</param>
    public sealed record SaddleSeen(double Day) : BroodFact(Day)
    {
        internal override int Rank => 3;
    }

    /// <summary>The female still carried her eggs.</summary>
    /// <param name="Day">When, days.</param>
    public sealed record StillCarried(double Day) : BroodFact(Day)
    {
        internal override int Rank => 4;
    }

    /// <summary>The eggs came off the female. Nothing hatches on her afterwards; eggs kept moving may hatch.</summary>
    /// <param name="Day">When, days.</param>
    public sealed record Dropped(double Day) : BroodFact(Day)
    {
        internal override int Rank => 5;
    }

    /// <summary>The first larvae came out within an interval.</summary>
    /// <param name="Day">Start of the interval, days.</param>
    /// <param name="UntilDay">End of the interval, days; not before the start.</param>
    public sealed record FirstLarvae(double Day, double UntilDay) : BroodFact(Day)
    {
        internal override int Rank => 6;
    }

    internal double LastDay => this is FirstLarvae larvae ? larvae.UntilDay : Day;

    internal bool ShowsEggs => this is not SeenEmpty and not FirstLarvae;

    internal void Check()
    {
        Finite.Within(Day, -100_000, 100_000);
        Finite.Within(LastDay, Day, 100_000);
    }
}
