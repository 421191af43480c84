using Broodtide.Domain;
using Broodtide.Phone.Keeping;
using Broodtide.Phone.Language;
using Broodtide.Phone.Parts;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Species;

namespace Broodtide.Phone.AtTheBench;

/// <summary>The fields of a planned crossing, and the order they make.</summary>
internal sealed class CrossingInputs
{
    private static readonly Temperature Warm = Temperature.FromCelsius(25);
    private readonly Formats _formats;

    // What a remedy changed that no field shows whole; it holds until a field is touched.
    private CrossingOrder? _taken;

    public CrossingInputs(Formats formats, SpeciesProfile profile)
    {
        _formats = formats;
        CupCapacity = Amounts.OfVolume(formats, Volume.FromLitres(1));
        CupVolume = Amounts.OfVolume(formats, Volume.FromMillilitres(200), small: true);
        CupSalinity = Amounts.OfSalinity(formats, Salinity.FromPractical(0));
        CupTemperature = Amounts.OfTemperature(formats, Warm);
        SourceVolume = Amounts.OfVolume(formats);
        SourceSalinity = Amounts.OfSalinity(formats);
        SourceTemperature = Amounts.OfTemperature(formats, Warm);
        ReceivingVolume = Amounts.OfVolume(formats);
        ReceivingSalinity = Amounts.OfSalinity(formats);
        ReceivingTemperature = Amounts.OfTemperature(formats, Warm);
        ReceivingCapacity = Amounts.OfVolume(formats);
        Minutes = Amounts.OfMinutes(formats, 4);
        var brackish = profile.BrackishSalinity;
        BrackishFrom = Amounts.OfSalinity(formats, brackish.Low);
        BrackishTo = Amounts.OfSalinity(formats, brackish.High);
        BrackishLimit = Amounts.OfMinutes(formats, profile.BrackishLimit.TotalMinutes);
        CupTarget = Amounts.OfSalinity(formats);
        var band = profile.LarvalSalinityBand;
        BandLow = Amounts.OfSalinity(formats, band.Low);
        BandTarget = Amounts.OfSalinity(formats, profile.LarvalSalinityTarget);
        BandHigh = Amounts.OfSalinity(formats, band.High);
    }

    public CrossingDirection Direction { get; private set; } = CrossingDirection.ToSalt;

    public VesselId? From { get; private set; }
    public VesselId? Source { get; private set; }
    public VesselId? Receiving { get; private set; }
    public AmountInput CupCapacity { get; }
    public AmountInput CupVolume { get; }
    public AmountInput CupSalinity { get; }
    public AmountInput CupTemperature { get; }
    public AmountInput SourceVolume { get; }
    public AmountInput SourceSalinity { get; }
    public AmountInput SourceTemperature { get; }
    public AmountInput ReceivingVolume { get; }
    public AmountInput ReceivingSalinity { get; }
    public AmountInput ReceivingTemperature { get; }
    public AmountInput ReceivingCapacity { get; }
    public AmountInput Minutes { get; }
    public AmountInput BrackishFrom { get; }
    public AmountInput BrackishTo { get; }
    public AmountInput BrackishLimit { get; }
    public AmountInput CupTarget { get; }
    public AmountInput BandLow { get; }
    public AmountInput BandTarget { get; }
    public AmountInput BandHigh { get; }
    public bool AllowJump { get; private set; }

    /// <summary>Whether the keeper typed anything.</summary>
    public bool IsTouched =>
        new[]
        {
            CupCapacity,
            CupVolume,
            CupSalinity,
            CupTemperature,
            SourceVolume,
            SourceSalinity,
            SourceTemperature,
            ReceivingVolume,
            ReceivingSalinity,
            ReceivingTemperature,
            ReceivingCapacity,
            Minutes,
            BrackishLimit,
        }.Any(input => input.IsTouched);

    /// <summary>A field was touched: what a remedy set besides no longer holds.</summary>
    public void Touched() => _taken = null;

    public void Choose(CrossingDirection direction, SpeciesProfile profile)
    {
        Touched();
        Direction = direction;
        var toSalt = direction == CrossingDirection.ToSalt;
        var band = toSalt ? null : SalinityBand.Fresh;
        Amounts.Set(BandLow, band?.Lower ?? profile.LarvalSalinityBand.Low, _formats);
        Amounts.Set(BandTarget, band?.Target ?? profile.LarvalSalinityTarget, _formats);
        Amounts.Set(BandHigh, band?.Upper ?? profile.LarvalSalinityBand.High, _formats);
        Amounts.Set(CupSalinity, toSalt ? Salinity.FromPractical(0) : null, _formats);
        Amounts.Set(SourceSalinity, toSalt ? null : Salinity.FromPractical(0), _formats);
        Amounts.Set(ReceivingSalinity, toSalt ? null : Salinity.FromPractical(0), _formats);
        (From, Source, Receiving) = (null, null, null);
    }

    /// <summary>The cup that larvae were gathered into, by its ledger, or by what was said to be in it.</summary>
    public void ChooseCup(VesselWater? known, Volume? told)
    {
        Touched();
        if (known?.Vessel.Capacity is { } capacity)
        {
            Amounts.Set(CupCapacity, capacity, _formats);
        }

        if ((known?.Water?.Volume ?? told) is { } water)
        {
            Amounts.Set(CupVolume, water, _formats);
        }

        if (known?.Water is { } body)
        {
            Amounts.Set(CupSalinity, body.Salinity, _formats);
            Amounts.Set(CupTemperature, body.Temperature, _formats);
        }
    }

    public void ChooseFrom(VesselId? vessel, VesselWater? known)
    {
        Touched();
        From = vessel;
        if (known?.Water is { } water)
        {
            Amounts.Set(CupSalinity, water.Salinity, _formats);
            Amounts.Set(CupTemperature, water.Temperature, _formats);
        }
    }

    public void ChooseSource(VesselId? vessel, VesselWater? known)
    {
        Touched();
        Source = vessel;
        if (known is not null)
        {
            Amounts.Set(SourceVolume, known.Water?.Volume, _formats);
            Amounts.Set(SourceSalinity, known.Water?.Salinity, _formats);
            Amounts.Set(SourceTemperature, known.Water?.Temperature ?? Warm, _formats);
        }
    }

    public void ChooseReceiving(VesselId? vessel, VesselWater? known, SalinityBand? band)
    {
        Touched();
        Receiving = vessel;
        if (known is null)
        {
            return;
        }

        Amounts.Set(ReceivingVolume, known.Water?.Volume, _formats);
        Amounts.Set(ReceivingSalinity, known.Water?.Salinity, _formats);
        Amounts.Set(ReceivingTemperature, known.Water?.Temperature ?? Warm, _formats);
        Amounts.Set(ReceivingCapacity, known.Vessel.Capacity, _formats);
        if (band is not null && Direction == CrossingDirection.ToSalt)
        {
            Amounts.Set(BandLow, band.Lower, _formats);
            Amounts.Set(BandTarget, band.Target, _formats);
            Amounts.Set(BandHigh, band.Upper, _formats);
        }
    }

    public void ChooseJump(bool allowed)
    {
        Touched();
        AllowJump = allowed;
    }

    /// <summary>Takes a whole order, as a remedy offers it.</summary>
    public void Take(CrossingOrder order)
    {
        _taken = order;
        Amounts.Set(CupCapacity, order.CupCapacity, _formats);
        Amounts.Set(CupVolume, order.Cup.Volume, _formats);
        Amounts.Set(CupSalinity, order.Cup.Salinity, _formats);
        Amounts.Set(CupTemperature, order.Cup.Temperature, _formats);
        Amounts.Set(SourceVolume, order.Source.Volume, _formats);
        Amounts.Set(SourceSalinity, order.Source.Salinity, _formats);
        Amounts.Set(SourceTemperature, order.Source.Temperature, _formats);
        Amounts.Set(ReceivingVolume, order.Receiving.Volume, _formats);
        Amounts.Set(ReceivingSalinity, order.Receiving.Salinity, _formats);
        Amounts.Set(ReceivingTemperature, order.Receiving.Temperature, _formats);
        Amounts.Set(ReceivingCapacity, order.ReceivingCapacity, _formats);
        Amounts.Set(CupTarget, order.CupTarget, _formats);
        Amounts.Set(BandTarget, order.ReceivingBand.Target, _formats);
        Minutes.Text = _formats.Plain(order.WantedMinutes, 1);
        BrackishLimit.Text = _formats.Plain(order.Brackish.LimitMinutes, 1);
        AllowJump = order.AllowJump;
    }

    /// <summary>The order; none while a field that it needs holds no number.</summary>
    public CrossingOrder? Order()
    {
        if (_taken is not null)
        {
            return _taken;
        }

        var receiving = ReceivingVolume.IsEmpty
            ? new WaterBody(default, default, ReceivingTemperature.Temperature ?? Warm)
            : Body(ReceivingVolume, ReceivingSalinity, ReceivingTemperature);
        if (
            CupCapacity.Volume is not { } capacity
            || Body(CupVolume, CupSalinity, CupTemperature) is not { } cup
            || Body(SourceVolume, SourceSalinity, SourceTemperature) is not { } source
            || receiving is not { } into
            || Minutes.Minutes is not { } minutes
            || Band() is not { } band
            || Rule() is not { } rule
            || (!ReceivingCapacity.IsEmpty && ReceivingCapacity.Volume is null)
            || (!CupTarget.IsEmpty && Practical(CupTarget) is null)
        )
        {
            return null;
        }

        return new CrossingOrder
        {
            CupCapacity = capacity,
            Cup = cup,
            Source = source,
            Receiving = into,
            ReceivingCapacity = ReceivingCapacity.Volume,
            WantedMinutes = minutes,
            CupTarget = Practical(CupTarget),
            Brackish = rule,
            ReceivingBand = band,
            AllowJump = AllowJump,
        };
    }

    private SalinityBand? Band() =>
        Practical(BandLow) is { } low
        && Practical(BandTarget) is { } target
        && Practical(BandHigh) is { } high
        && low <= target
        && target <= high
            ? SalinityBand.From(low, target, high)
            : null;

    private BrackishRule? Rule() =>
        Practical(BrackishFrom) is { } from
        && Practical(BrackishTo) is { } to
        && BrackishLimit.Minutes is { } limit
        && from <= to
            ? BrackishRule.From(from, to, limit)
            : null;

    private static Salinity? Practical(AmountInput input) => input.PracticalAt(Warm, SaltProduct.Unmeasured);

    private static WaterBody? Body(AmountInput volume, AmountInput salinity, AmountInput temperature) =>
        volume.Volume is { } litres
        && temperature.Temperature is { } warmth
        && salinity.PracticalAt(warmth, SaltProduct.Unmeasured) is { } salt
            ? new WaterBody(litres, salt, warmth)
            : null;
}
