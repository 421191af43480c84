using System.Globalization;
using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Phone.Language;
using Broodtide.Phone.Looking;
using Broodtide.Phone.Writing;
using Broodtide.Science.Counting;
using Broodtide.Science.Imaging.Chambers;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Phone.Pages.Looking;

/// <summary>Cells in a picture of a counting chamber: chosen, counted on the phone, looked over, written.</summary>
public sealed partial class LookCellsPage
{
    // The longest side that is counted on the phone, pixels: what it works through in some seconds.
    private const int LongestSide = 1_000;

    private static readonly string[] Chambers = [.. CountingChamber.All.Select(chamber => chamber.Code)];

    private readonly ChosenPictures _pictures = new("cells");
    private readonly Stack<IReadOnlyList<ChamberCell>> _before = new();
    private IReadOnlyList<ChamberCell> _cells = [];
    private ChamberPicture? _read;
    private CancellationTokenSource? _running;
    private bool _working;
    private Remark? _refused;
    private VesselId? _vessel;
    private string _chamber = Chambers[0];
    private string _dilution = "1";
    private string? _address;
    private string _said = "";
    private int _across;
    private int _down;

    private protected override object Step => (_working, _read is null, Written.Count > 0);

    // How many times the sample was thinned; none while what stands there is no such number.
    private double? Times =>
        double.TryParse(
            _dilution.Replace(',', '.'),
            NumberStyles.Float,
            CultureInfo.InvariantCulture,
            out var times
        ) && times is >= 1 and <= 1e6
            ? times
            : null;

    private ChamberWay Way => new(CountingChamber.Find(_chamber)!, Dilution: Times ?? 1);

    private Parsed<ChamberTold>? Told => _read is null ? null : ChamberTally.Of(_read, _cells, Way);

    private IReadOnlyList<BoardMark> Board =>
        [.. _cells.Select(cell => new BoardMark(cell.X, cell.Y, 1.5 * cell.Radius, BoardLook.Found))];

    private string Of(Remark remark) =>
        Words.Has("say." + remark.Code)
            ? Sayings.Plain(Sayings.Of(remark, Desk.House))
            : Remarks.Of(remark, null, Words, Formats);

    private protected override void Opened() =>
        _vessel ??= Likeliest is { } vessel ? new VesselId(vessel) : null;

    private protected override void Left()
    {
        base.Left();
        _running?.Cancel();
        Hide();
        _pictures.Dispose();
    }

    // Two figures: more the interval never earns.
    private static double Sure(double perMillilitre)
    {
        if (perMillilitre <= 0)
        {
            return 0;
        }

        var step = Math.Pow(10, Math.Floor(Math.Log10(perMillilitre)) - 1);
        return Math.Round(perMillilitre / step) * step;
    }

    private async Task Count()
    {
        if (_working || _pictures.Count == 0)
        {
            return;
        }

        (_working, _refused) = (true, null);
        StateHasChanged();
        using var running = new CancellationTokenSource();
        _running = running;
        try
        {
            await Read(running.Token);
        }
        catch (OperationCanceledException)
        {
            // The keeper stopped it: back to the choice.
        }
        finally
        {
            (_working, _running) = (false, null);
        }
    }

    private async Task Read(CancellationToken cancel)
    {
        var file = await _pictures.FileAsync(0);
        var decoded = file.Succeeded ? await _pictures.DecodeAsync(0, LongestSide) : null;
        var read = decoded is { Succeeded: true, Value: { } picture }
            ? await Slicer.Last(ChamberPicture.Steps(picture.ToGrey(), picture.Shape), cancel)
            : null;
        if (read is { Succeeded: true } && decoded is not null)
        {
            (_read, _cells) = (read.Value, read.Value.Cells);
            (_across, _down) = (decoded.Value.Shape.Across, decoded.Value.Shape.Down);
            _address = _pictures.Show(0);
        }
        else
        {
            _refused = file.Reason ?? decoded?.Reason ?? read?.Reason;
        }
    }

    private void Cancel() => _running?.Cancel();

    private void Mark(BoardTap tap)
    {
        Forget();
        _before.Push(_cells);
        _cells = tap.Mark is { } mark
            ? [.. _cells.Where((_, at) => at != mark)]
            : [.. _cells, new ChamberCell(tap.X, tap.Y, _read!.UsualRadius)];
    }

    private void UndoMark() => _cells = _before.Pop();

    private static string Sides(ChamberTold told)
    {
        var path = new StringBuilder();
        foreach (var side in told.Counted.SelectMany(square => square.Sides))
        {
            // The middle of the first pixel is half a pixel from the edge of the drawing.
            path.Append(
                CultureInfo.InvariantCulture,
                $"M{side.FromX + 0.5:0.#} {side.FromY + 0.5:0.#}L{side.ToX + 0.5:0.#} {side.ToY + 0.5:0.#}"
            );
        }

        return path.ToString();
    }

    private Task Write() =>
        _vessel is { } vessel && Told is { Succeeded: true, Value: { } told }
            ? WriteAsync(ChamberEntries.Of(vessel, told, Way), Happened.At(Now))
            : Task.CompletedTask;

    private protected override void IsWritten(Fact fact)
    {
        var counted = (CellsCounted)fact;
        LookedAt.Keep(counted.Vessel);
        _said = Words[
            "look.cells.written",
            NameOf(counted.Vessel),
            counted.Squares.Sum(square => square.Cells)
        ];
    }

    private void Another()
    {
        ClearWritten();
        Back();
    }

    private void Back()
    {
        Forget();
        Hide();
        _before.Clear();
        _pictures.Dispose();
        (_read, _cells) = (null, []);
    }

    private void Hide()
    {
        if (_address is not null)
        {
            ChosenPictures.Hide(_address);
            _address = null;
        }
    }
}
