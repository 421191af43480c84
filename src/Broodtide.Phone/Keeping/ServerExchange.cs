using System.Net.Http.Headers;
using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Recording;

namespace Broodtide.Phone.Keeping;

/// <summary>How the last meeting with the server went.</summary>
internal enum Meeting
{
    /// <summary>None was tried yet.</summary>
    None,

    /// <summary>Both sides hold the same.</summary>
    Agreed,

    /// <summary>The server could not be reached; nothing is lost.</summary>
    Away,

    /// <summary>The server answered something else than it should.</summary>
    Refused,
}

/// <summary>
/// Meets the server when it is there: receives what this phone lacks, gives what the server lacks. May be broken off
/// anywhere and done again.
/// </summary>
internal sealed class ServerExchange(HttpClient http, PhoneJournal journal)
{
    private const string Lacking = "api/journal/lacking";
    private const string Holding = "api/journal/holdings";
    private const string Taking = "api/journal/take";

    /// <summary>One meeting. Answers how it went and which entries came.</summary>
    public async Task<(Meeting Meeting, IReadOnlyList<Entry> Came)> MeetAsync(IReadOnlyCollection<Entry> held)
    {
        try
        {
            var came = await FetchAsync(held);
            var waiting = await journal.ReadWaitingAsync();
            if (waiting.Count > 0)
            {
                await GiveAsync([.. held, .. came]);
                await journal.AcknowledgeAsync(waiting);
            }

            return (Meeting.Agreed, came);
        }
        catch (HttpRequestException away) when (away.StatusCode is null)
        {
            return (Meeting.Away, []);
        }
        catch (HttpRequestException)
        {
            return (Meeting.Refused, []);
        }
        catch (OperationCanceledException)
        {
            return (Meeting.Away, []);
        }
    }

    private async Task<IReadOnlyList<Entry>> FetchAsync(IReadOnlyCollection<Entry> held)
    {
        using var holdings = Json(HoldingsText.Write(Holdings.Of(held)));
        using var answer = await http.PostAsync(Lacking, holdings);
        answer.EnsureSuccessStatusCode();
        var text = await answer.Content.ReadAsStringAsync();
        var read = JournalLines.Read(text.Split('\n', StringSplitOptions.RemoveEmptyEntries));
        if (!read.Succeeded)
        {
            throw new HttpRequestException(
                read.Reason.ToString(),
                null,
                System.Net.HttpStatusCode.BadGateway
            );
        }

        var known = held.Select(entry => entry.Digest).ToHashSet();
        var fresh = read.Value.Where(entry => !known.Contains(entry.Digest)).ToList();
        if (fresh.Count > 0)
        {
            await journal.TakeAsync(fresh);
        }

        return fresh;
    }

    private async Task GiveAsync(IReadOnlyCollection<Entry> held)
    {
        var holdings = HoldingsText.Read(await http.GetByteArrayAsync(Holding));
        if (!holdings.Succeeded)
        {
            throw new HttpRequestException(
                holdings.Reason.ToString(),
                null,
                System.Net.HttpStatusCode.BadGateway
            );
        }

        foreach (var batch in holdings.Value.LackedOf(held).Chunk(Exchange.BatchEntries))
        {
            using var lines = Json(
                Encoding.UTF8.GetBytes(string.Join('\n', JournalLines.Write(batch)) + "\n")
            );
            using var answer = await http.PostAsync(Taking, lines);
            answer.EnsureSuccessStatusCode();
        }
    }

    private static ByteArrayContent Json(byte[] bytes)
    {
        var content = new ByteArrayContent(bytes);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return content;
    }
}
