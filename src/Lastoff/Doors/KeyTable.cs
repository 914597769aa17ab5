using System.Xml.Linq;
using Lastoff.Storing;
using Microsoft.AspNetCore.DataProtection.Repositories;

namespace Lastoff.Doors;

/// <summary>The keys that sign links and challenges, in the records, so that every server on them has the same.</summary>
internal sealed class KeyTable(Workshop workshop) : IXmlRepository
{
    public IReadOnlyCollection<XElement> GetAllElements()
    {
        using var connection = workshop.Database.OpenToRead();
        using var command = connection.Command("SELECT xml FROM signing_keys WHERE workshop = @workshop", ("@workshop", workshop.Number));
        using var reader = command.ExecuteReader();
        var keys = new List<XElement>();
        while (reader.Read())
        {
            keys.Add(XElement.Parse(reader.GetString(0)));
        }

        return keys;
    }

    public void StoreElement(XElement element, string friendlyName)
    {
        using var connection = workshop.Database.OpenToWrite();
        connection.Run(
            "INSERT INTO signing_keys (workshop, name, xml) VALUES (@workshop, @name, @xml)",
            ("@workshop", workshop.Number), ("@name", friendlyName), ("@xml", element.ToString(SaveOptions.DisableFormatting)));
    }
}
