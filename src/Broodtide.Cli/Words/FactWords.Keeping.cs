using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;

namespace Broodtide.Cli.Words;

internal sealed partial class FactWords
{
    private string?[]? Gear(Fact fact) =>
        fact switch
        {
            LightChanged l =>
            [
                $"light of {Name(l.Vessel)} {OnOff(l.On)}",
                l.HoursPerDay is { } hours ? $"{Saying.Number(hours)} h a day" : null,
                l.Illuminance is { } lux ? Typed(lux) : null,
            ],
            AirChanged a => [$"air of {Name(a.Vessel)} {OnOff(a.On)}", a.Note],
            HeaterChanged h =>
            [
                $"heater of {Name(h.Vessel)} {OnOff(h.On)}",
                h.Setting is { } setting ? $"set to {Typed(setting)}" : null,
            ],
            FilterChanged f => [$"filter of {Name(f.Vessel)} {OnOff(f.On)}", f.Note],
            InstrumentDescribed i =>
            [
                $"{i.Name}: {EnumWords.Plain(i.Kind)}",
                i.Scale is { } scale ? $"reads {UnitNames.Of(scale)}" : null,
                i.PhScale is { } ph ? $"buffers of scale {EnumWords.Plain(ph)}" : null,
            ],
            InstrumentCalibrated c =>
            [
                $"{Name(c.Instrument)} showed {Typed(c.Shown)} in a standard of {Typed(c.Standard)}",
                c.HoldsFrom is { } from ? $"holds from {saying.Time(from)}" : null,
                c.Adjusted ? "then set right" : null,
            ],
            _ => null,
        };

    private string?[]? Keeping(Fact fact) =>
        fact switch
        {
            RunStarted r => [$"run {r.Name} started on brood {Name(r.Brood)}", r.Species],
            TrialLaidOut t =>
            [
                $"{t.Name} laid out: {t.Varied}, {string.Join(", ", t.Treatments.Select((treatment, at) => $"{treatment.Name} in {string.Join(" and ", t.Vessels.Where(vessel => vessel.Treatment == at).Select(vessel => Name(vessel.Vessel)))}"))}",
                t.Compared is { } compared ? $"to be compared: {compared}" : null,
            ],
            RunEnded r => [$"run {Name(r.Run)} ended: {EnumWords.Plain(r.End)}", r.Note],
            PowerFailed p => ["mains failed", p.Note],
            PowerRestored p => ["mains back", p.Note],
            KeeperLeft k =>
            [
                "keeper away",
                k.Until is { } until ? $"until {saying.Time(until)}" : null,
                k.Helper is { } helper ? $"{helper} looks after the animals" : null,
            ],
            KeeperReturned => ["keeper back"],
            ActionDone a => [$"done: {Writing.DueKeys.Short(a.Action)}", a.Note],
            ActionSkipped a =>
            [
                $"skipped: {Writing.DueKeys.Short(a.Action)}",
                a.Until is { } until ? $"until {saying.Time(until)}" : null,
                a.Reason,
            ],
            NoteWritten n =>
            [
                $"note{(n.Vessel is { } v ? $" on {Name(v)}" : n.Animal is { } a ? $" on {Name(a)}" : n.Run is { } r ? $" on {Name(r)}" : "")}: {n.Text}",
            ],
            PhotoAdded p => [$"photo {p.Sha256[..8]}", p.Caption],
            ForecastIssued f =>
            [
                $"forecast of {f.Quantity} for run {Name(f.Run)} on {f.Day}: {Saying.Number(f.Low)}, {Saying.Number(f.Middle)}, {Saying.Number(f.High)} {f.Unit}",
            ],
            WaterForetold f =>
            [
                $"forecast of the water of {Name(f.Vessel)} on {f.Day}: {string.Join(", ", f.Points.Select(point => point.Quantity).Distinct(StringComparer.Ordinal))}",
            ],
            ProfileValueChosen p =>
            [
                $"chosen for {p.Species}: {p.Quantity} = {string.Join(" / ", Parts(p))} {p.Unit}",
                p.Reason,
            ],
            EntryTakenBack e => ["taken back", e.Reason],
            _ => null,
        };

    private static IEnumerable<string> Parts(ProfileValueChosen choice)
    {
        foreach (
            var (name, part) in new[] { ("low", choice.Low), ("value", choice.Value), ("high", choice.High) }
        )
        {
            if (part is { } number)
            {
                yield return $"{name} {Saying.Number(number)}";
            }
        }
    }
}
