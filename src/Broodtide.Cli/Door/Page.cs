using Spectre.Console;

namespace Broodtide.Cli.Door;

/// <summary>Plain text for people: lines, headings and tables, without colours.</summary>
internal sealed class Page(TextWriter output)
{
    private const int Width = 118;

    public Page Line(string text = "")
    {
        output.WriteLine(text);
        return this;
    }

    public Page Heading(string text)
    {
        output.WriteLine(text);
        output.WriteLine(new string('-', Math.Min(Width, text.Length)));
        return this;
    }

    /// <summary>Two columns: what, and how much.</summary>
    public Page Facts(params ReadOnlySpan<(string What, string? Value)> facts)
    {
        var widest = 0;
        foreach (var (what, value) in facts)
        {
            widest = value is null ? widest : Math.Max(widest, what.Length);
        }

        foreach (var (what, value) in facts)
        {
            if (value is not null)
            {
                output.WriteLine($"{what.PadRight(widest)}  {value}");
            }
        }

        return this;
    }

    public Page Table(IReadOnlyList<string> heads, IEnumerable<IReadOnlyList<string>> rows)
    {
        var table = new Table { Border = TableBorder.Simple, UseSafeBorder = true };
        foreach (var head in heads)
        {
            table.AddColumn(new TableColumn(new Text(head)));
        }

        foreach (var row in rows)
        {
            table.AddRow(row.Select(cell => new Text(cell)));
        }

        var written = new StringWriter();
        var console = AnsiConsole.Create(
            new AnsiConsoleSettings
            {
                Ansi = AnsiSupport.No,
                ColorSystem = ColorSystemSupport.NoColors,
                Interactive = InteractionSupport.No,
                Out = new AnsiConsoleOutput(written),
            }
        );
        console.Profile.Width = Width;
        console.Write(table);
        foreach (var line in written.ToString().Split('\n'))
        {
            if (line.Trim().Length > 0)
            {
                output.WriteLine(line.TrimEnd());
            }
        }

        return this;
    }
}
