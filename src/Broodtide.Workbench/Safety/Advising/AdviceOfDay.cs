using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.Safety.Advising;

/// <summary>One thing advised for today.</summary>
/// <param name="Why">The reason, as a code with arguments.</param>
public abstract record Advice(Remark Why)
{
    /// <summary>Green water to give.</summary>
    /// <param name="Cells">Cells for the whole vessel, 5, 50 and 95 %; none is to be given where all are zero.</param>
    /// <param name="PresentPerMillilitre">Cells/mL now, by the twin.</param>
    /// <param name="WantedPerMillilitre">Cells/mL that the dose is meant to reach.</param>
    /// <param name="Culture">The culture it would come from; none where no counted culture stands.</param>
    /// <param name="Volume">How much of that culture, in place of as much of the vessel's water.</param>
    /// <param name="Why">The reason.</param>
    public sealed record Algae(
        Interval Cells,
        Interval PresentPerMillilitre,
        double WantedPerMillilitre,
        VesselId? Culture,
        Volume? Volume,
        Remark Why
    ) : Advice(Why);

    /// <summary>Dry food to give at most.</summary>
    /// <param name="Food">What kind.</param>
    /// <param name="Feed">Name of the described feed.</param>
    /// <param name="DryMilligrams">The most that is safe in nine of ten members of the twin; 0 for none.</param>
    /// <param name="SafeMilligrams">The most that is safe, member by member: 5, 50 and 95 %.</param>
    /// <param name="Why">The reason.</param>
    public sealed record Ration(
        FoodKind Food,
        string? Feed,
        double DryMilligrams,
        Interval SafeMilligrams,
        Remark Why
    ) : Advice(Why);

    /// <summary>How long the lamp should burn.</summary>
    /// <param name="HoursPerDay">Hours a day.</param>
    /// <param name="NowHoursPerDay">Hours a day as it is.</param>
    /// <param name="Why">The reason.</param>
    public sealed record Light(double HoursPerDay, double NowHoursPerDay, Remark Why) : Advice(Why);

    /// <summary>Whether air should be led through.</summary>
    /// <param name="On">Whether it should run.</param>
    /// <param name="Why">The reason.</param>
    public sealed record Air(bool On, Remark Why) : Advice(Why);

    /// <summary>A sponge that has ripened in salt water would help.</summary>
    /// <param name="Why">The reason.</param>
    public sealed record Sponge(Remark Why) : Advice(Why);

    /// <summary>Pure water to top up with, as the ledger tells it.</summary>
    /// <param name="Each">How much in one portion.</param>
    /// <param name="Portions">In how many portions.</param>
    /// <param name="Why">The reason.</param>
    public sealed record TopUp(Volume Each, int Portions, Remark Why) : Advice(Why);

    /// <summary>What to measure, since it would tell most.</summary>
    /// <param name="Quantity">Of what.</param>
    /// <param name="Told">Share of what is uncertain about the worst limit that one reading would take away.</param>
    /// <param name="Why">The reason.</param>
    public sealed record Measure(VesselQuantity Quantity, Probability Told, Remark Why) : Advice(Why);
}

/// <summary>What is advised for a vessel with larvae today.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Lines">The advice, food first.</param>
/// <param name="Assumes">What it supposes.</param>
public sealed record AdviceOfDay(
    VesselId Vessel,
    ImmutableArray<Advice> Lines,
    ImmutableArray<Remark> Assumes
);
