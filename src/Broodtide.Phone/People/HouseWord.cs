using System.Net;
using System.Text.Json;
using Broodtide.Workbench.People;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Phone.People;

/// <summary>
/// Between the app and the server: whatever changes something carries the word that only a page of this house gets,
/// asked for once and anew when it is no longer good. Says which store this phone writes, and hears when the
/// server turns it away.
/// </summary>
internal sealed class HouseWord(SignedIn who, PhoneJournal journal, Uri house) : DelegatingHandler
{
    private string? _word;

    /// <summary>Another person is in: the word was made for the one before.</summary>
    public void Forget() => _word = null;

    protected override async Task<HttpResponseMessage> SendAsync(
        HttpRequestMessage request,
        CancellationToken cancellationToken
    )
    {
        if (journal.Replica.Value != Guid.Empty)
        {
            request.Headers.TryAddWithoutValidation(
                PeopleAddresses.ReplicaHeader,
                journal.Replica.Value.ToString()
            );
        }

        var changes = request.Method != HttpMethod.Get && request.Method != HttpMethod.Head;
        if (changes)
        {
            if (request.Content is not null)
            {
                // It may have to be sent once more.
                await request.Content.LoadIntoBufferAsync(cancellationToken);
            }

            await PutWordAsync(request, cancellationToken);
        }

        var answer = await base.SendAsync(request, cancellationToken);
        if (
            changes
            && answer.StatusCode is HttpStatusCode.BadRequest
            && await CodeOfAsync(answer, cancellationToken) == "token-missing"
        )
        {
            answer.Dispose();
            Forget();
            await PutWordAsync(request, cancellationToken);
            answer = await base.SendAsync(request, cancellationToken);
        }

        if (
            answer.StatusCode is HttpStatusCode.Unauthorized
            && await CodeOfAsync(answer, cancellationToken)
                is ("sign-in-needed" or "owner-missing")
                    and { } code
        )
        {
            who.TurnedAway(code);
        }

        return answer;
    }

    private async Task PutWordAsync(HttpRequestMessage request, CancellationToken cancel)
    {
        _word ??= await AskAsync(cancel);
        request.Headers.Remove(PeopleAddresses.TokenHeader);
        request.Headers.TryAddWithoutValidation(PeopleAddresses.TokenHeader, _word);
    }

    private async Task<string?> AskAsync(CancellationToken cancel)
    {
        using var asking = new HttpRequestMessage(HttpMethod.Get, new Uri(house, PeopleAddresses.Token));
        using var answer = await base.SendAsync(asking, cancel);
        return answer.IsSuccessStatusCode
            ? JsonSerializer
                .Deserialize(await answer.Content.ReadAsByteArrayAsync(cancel), PeopleJson.Default.TokenSeen)
                ?.Token
            : null;
    }

    private static async Task<string?> CodeOfAsync(HttpResponseMessage answer, CancellationToken cancel)
    {
        if (answer.Content.Headers.ContentType?.MediaType != "application/json")
        {
            return null;
        }

        // As bytes, which whoever asked can still read afterwards.
        var bytes = await answer.Content.ReadAsByteArrayAsync(cancel);
        try
        {
            return JsonSerializer.Deserialize(bytes, PeopleJson.Default.Refused)?.Code;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
