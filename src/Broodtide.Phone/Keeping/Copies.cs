using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Phone.Keeping;

/// <summary>Copies of the journal as files, made on the phone itself.</summary>
internal sealed class Copies(PhoneJournal journal, PhoneClock clock)
{
    /// <summary>Every entry.</summary>
    public void SaveAll(IEnumerable<Entry> entries) => Save("journal", entries);

    /// <summary>Of the entries held, those that the server has not said it holds. Answers how many.</summary>
    public async Task<int> SaveWaitingAsync(IEnumerable<Entry> held)
    {
        var rows = (await journal.ReadWaitingAsync()).Select(row => row.Digest).ToHashSet();
        var waiting = held.Where(entry => rows.Contains(entry.Digest)).ToList();
        Save("waiting", waiting.OrderBy(entry => entry.Envelope.Sequence));
        return waiting.Count;
    }

    /// <summary>A text, such as an entry that found no room.</summary>
    public void SaveText(string text) =>
        Files.Download(Name("unwritten", "txt"), "text/plain", Encoding.UTF8.GetBytes(text));

    private void Save(string what, IEnumerable<Entry> entries)
    {
        var text = new StringBuilder();
        foreach (var line in JournalLines.Write([.. entries]))
        {
            text.Append(line).Append('\n');
        }

        Files.Download(Name(what, "jsonl"), "application/x-ndjson", Encoding.UTF8.GetBytes(text.ToString()));
    }

    private string Name(string what, string ending) =>
        $"broodtide-{what}-{NodaTime.Text.LocalDatePattern.Iso.Format(clock.Here.Date)}.{ending}";
}
