using System.Text.Json;
using System.Text.Json.Serialization;
using Lastoff.App.Exchange;
using Lastoff.App.Jobs;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.App.Device;

/// <summary>How records are written for the browser and the server; generated when built, so that nothing of it is trimmed away.</summary>
[JsonSourceGenerationOptions(JsonSerializerDefaults.Web, GenerationMode = JsonSourceGenerationMode.Metadata, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(KeptEntry))]
[JsonSerializable(typeof(List<KeptEntry>))]
[JsonSerializable(typeof(KeptJob))]
[JsonSerializable(typeof(List<KeptJob>))]
[JsonSerializable(typeof(List<ShownJob>))]
[JsonSerializable(typeof(JobLine))]
[JsonSerializable(typeof(KeptMap))]
[JsonSerializable(typeof(List<KeptMap>))]
[JsonSerializable(typeof(KeptText))]
[JsonSerializable(typeof(List<KeptText>))]
[JsonSerializable(typeof(KeptPlan))]
[JsonSerializable(typeof(KeptToolbox))]
[JsonSerializable(typeof(Plan))]
[JsonSerializable(typeof(ForkedPlan))]
[JsonSerializable(typeof(List<Extra>))]
[JsonSerializable(typeof(HandsPlan))]
[JsonSerializable(typeof(List<string>))]
[JsonSerializable(typeof(Dictionary<string, string>))]
[JsonSerializable(typeof(List<RefusedEntry>))]
[JsonSerializable(typeof(List<ListedMap>))]
[JsonSerializable(typeof(List<ListedJob>))]
[JsonSerializable(typeof(EntryPage))]
[JsonSerializable(typeof(Receipt))]
[JsonSerializable(typeof(DoorState))]
[JsonSerializable(typeof(List<ListedPerson>))]
[JsonSerializable(typeof(List<ListedDevice>))]
[JsonSerializable(typeof(Invitation))]
[JsonSerializable(typeof(CustomerAddress))]
[JsonSerializable(typeof(PhotoArrived))]
[JsonSerializable(typeof(BackupList))]
internal sealed partial class AppJson : JsonSerializerContext;
