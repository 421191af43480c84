using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Vessels;

/// <summary>The water of a vessel between two emptyings.</summary>
/// <param name="Id">Identity; none if the filling was never written down.</param>
/// <param name="Began">When it was filled; none if the filling was never written down.</param>
/// <param name="Ended">When it was emptied; none while it stands.</param>
/// <param name="Occurrences">What happened to it, in the order of telling.</param>
public sealed record Fill(
    FillId? Id,
    Happened? Began,
    Happened? Ended,
    IReadOnlyList<Occurrence> Occurrences
);

/// <summary>One thing that holds water: what it is for, and its fills. A total view of the journal.</summary>
public sealed class Vessel
{
    private readonly List<Fill> _fills = [];
    private readonly List<Occurrence> _cultures = [];
    private readonly List<Occurrence> _densities = [];
    private readonly List<Remark> _conflicts = [];

    private Vessel(VesselId id) => Id = id;

    /// <summary>Identity.</summary>
    public VesselId Id { get; }

    /// <summary>What it is called here; none if it was never set up.</summary>
    public string? Name { get; private set; }

    /// <summary>What it is for; none if it was never set up.</summary>
    public VesselRole? Role { get; private set; }

    /// <summary>What it holds to the working line.</summary>
    public Volume? Capacity { get; private set; }

    /// <summary>Scientific name of what lives in it.</summary>
    public string? Species { get; private set; }

    /// <summary>Its fills, oldest first.</summary>
    public IReadOnlyList<Fill> Fills => _fills;

    /// <summary>The fill that stands now; none when empty.</summary>
    public Fill? Standing => _fills is [.., { Ended: null } last] ? last : null;

    /// <summary>
    /// Every time that a culture in it was described, in the order of telling; each fact is a <see cref="CultureDescribed"/>.
    /// </summary>
    public IReadOnlyList<Occurrence> Cultures => _cultures;

    /// <summary>Everything that tells how many algal cells a millilitre of its water held, in the order of telling.</summary>
    public IReadOnlyList<Occurrence> CellDensities => _densities;

    /// <summary>What does not agree in its history.</summary>
    public IReadOnlyList<Remark> Conflicts => _conflicts;

    /// <summary>The fill that stood at an instant.</summary>
    public Fill? FillAt(Instant instant) =>
        _fills.LastOrDefault(fill =>
            (fill.Began is not { } began || began.Middle <= instant)
            && (fill.Ended is not { } ended || ended.Middle > instant)
        );

    /// <summary>The view of one vessel in an account.</summary>
    public static Vessel In(Account account, VesselId id)
    {
        var vessel = new Vessel(id);
        List<Occurrence>? open = null;
        FillId? fill = null;
        Happened? began = null;
        foreach (var occurrence in account.About(Subject.Of(id)))
        {
            if (occurrence.Fact is CultureDescribed described && described.Vessel == id)
            {
                vessel._cultures.Add(occurrence);
            }
            else if (TellsCells(occurrence.Fact, id))
            {
                vessel._densities.Add(occurrence);
            }

            switch (occurrence.Fact)
            {
                case VesselSetUp setUp when setUp.Vessel == id:
                    vessel.Describe(setUp);
                    break;
                case VesselFilled filled when filled.Vessel == id:
                    if (open is not null)
                    {
                        vessel._conflicts.Add(
                            new Remark("filled-while-full", new("vessel", id), new("entry", occurrence.Id))
                        );
                        vessel._fills.Add(new(fill, began, occurrence.Happened, open));
                    }

                    open = [occurrence];
                    (fill, began) = (filled.Fill, occurrence.Happened);
                    break;
                case VesselEmptied:
                    if (open is null)
                    {
                        vessel._conflicts.Add(
                            new Remark("emptied-while-empty", new("vessel", id), new("entry", occurrence.Id))
                        );
                        break;
                    }

                    open.Add(occurrence);
                    vessel._fills.Add(new(fill, began, occurrence.Happened, open));
                    (open, fill, began) = (null, null, null);
                    break;
                default:
                    if (open is null && ConcernsWater(occurrence.Fact))
                    {
                        vessel._conflicts.Add(
                            new Remark("water-never-filled", new("vessel", id), new("entry", occurrence.Id))
                        );
                        open = [];
                    }

                    open?.Add(occurrence);
                    break;
            }
        }

        if (open is not null)
        {
            vessel._fills.Add(new(fill, began, null, open));
        }

        if (vessel.Name is null)
        {
            vessel._conflicts.Add(new Remark("vessel-never-set-up", new Argument("vessel", id)));
        }

        return vessel;
    }

    private void Describe(VesselSetUp setUp)
    {
        Name = setUp.Name;
        Role = setUp.Role;
        Capacity = setUp.Capacity.AsVolume() ?? Capacity;
        Species = setUp.Species ?? Species;
    }

    private static bool TellsCells(Fact fact, VesselId id) =>
        fact switch
        {
            Readings.CellsCounted counted => counted.Vessel == id,
            Readings.ReadingTaken { Value.Unit: UnitCode.CellsPerMillilitre } reading => reading.Vessel == id,
            CultureHarvested { Density: not null } harvested => harvested.Vessel == id,
            VesselFed { Density: not null } fed => fed.From == id,
            _ => false,
        };

    private static bool ConcernsWater(Fact fact) =>
        fact
            is WaterMoved
                or VesselSiphoned
                or VesselFed
                or CultureHarvested
                or Readings.ReadingTaken
                or Readings.CellsCounted
                or Larvae.CrossingMade;
}
