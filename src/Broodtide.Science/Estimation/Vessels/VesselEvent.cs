using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// Something done to a vessel at the beginning of an hour, before that hour runs. Hours are counted from the start of the
/// vessel's clock.
/// </summary>
/// <param name="Hour">Hour before which it is done, 0 or more.</param>
public abstract record VesselEvent(int Hour)
{
    /// <summary>Water taken out, then water put in; either may be nothing. A change, a pour, a top-up with salt water.</summary>
    /// <param name="Hour">Hour before which it is done.</param>
    /// <param name="Taken">Out of the mixed vessel.</param>
    /// <param name="Added">Put in afterwards.</param>
    /// <param name="Incoming">What is in the water put in.</param>
    public sealed record WaterMoved(int Hour, Volume Taken, Volume Added, IncomingWater Incoming)
        : VesselEvent(Hour);

    /// <summary>Dry food put in: powder, yeast, dust.</summary>
    /// <param name="Hour">Hour before which it is done.</param>
    /// <param name="DryMass">Dry mass in the vessel.</param>
    /// <param name="Composition">What it is made of.</param>
    public sealed record Fed(int Hour, Mass DryMass, FeedComposition Composition) : VesselEvent(Hour);

    /// <summary>Algae put in with no water of account, as cells in the whole vessel.</summary>
    /// <param name="Hour">Hour before which it is done.</param>
    /// <param name="Cells">Cells, 0 or more, of the kind the vessel is counted in.</param>
    public sealed record AlgaeGiven(int Hour, double Cells) : VesselEvent(Hour);

    /// <summary>Settled matter drawn off; its water is told apart, as <see cref="WaterMoved"/>.</summary>
    /// <param name="Hour">Hour before which it is done.</param>
    /// <param name="Share">Share of what has settled.</param>
    public sealed record Siphoned(int Hour, Probability Share) : VesselEvent(Hour);

    /// <summary>Film wiped from the walls and taken out.</summary>
    /// <param name="Hour">Hour before which it is done.</param>
    /// <param name="Share">Share of the film.</param>
    public sealed record FilmWiped(int Hour, Probability Share) : VesselEvent(Hour);

    /// <summary>Algae that have died at once, as a culture that has turned.</summary>
    /// <param name="Hour">Hour before which it is done.</param>
    /// <param name="Share">Share of the algae in the water.</param>
    public sealed record AlgaeDied(int Hour, Probability Share) : VesselEvent(Hour);

    /// <summary>Nitrifying bacteria lost (dried, washed, taken out); the rest grow again.</summary>
    /// <param name="Hour">Hour before which it is done.</param>
    /// <param name="Kept">Share kept.</param>
    public sealed record FilterDisturbed(int Hour, Probability Kept) : VesselEvent(Hour);
}
